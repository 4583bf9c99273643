import { flushSync } from "react-dom";
import { createRoot } from "react-dom/client";
import { type Figure, FigureSvg } from "../figure";
import { embeddedFonts } from "./fonts";
import { boxOnPaper, WHITE } from "./whitePaper";

const NAMESPACE = "http://www.w3.org/2000/svg";

/**
 * A figure as an SVG document of its own: on white, with its fonts inside, and with nothing in it that only some
 * programs draw.
 */
export async function standaloneSvg(figure: Figure, title: string): Promise<string> {
  const drawing = renderedSvg(figure);
  const box = boxOnPaper(figure);
  const { width, height } = box;
  for (const name of ["class", "aria-hidden", "focusable"]) drawing.removeAttribute(name);
  drawing.setAttribute("viewBox", `${box.x} ${box.y} ${width} ${height}`);
  drawing.setAttribute("width", String(width));
  drawing.setAttribute("height", String(height));
  drawing.setAttribute("font-family", '"Atkinson Hyperlegible", KaTeX_Main, sans-serif');
  drawing.setAttribute("role", "img");
  // Between a name and its value stand two spaces, which an SVG else takes for one.
  drawing.setAttribute("style", "white-space: pre");
  lowerIndices(drawing);
  const paper = element("rect", { ...box, fill: WHITE.sheet });
  const style = element("style", {});
  style.textContent = await embeddedFonts(drawing.textContent ?? "");
  const name = element("title", {});
  name.textContent = title;
  drawing.prepend(name, style, paper);
  return new XMLSerializer().serializeToString(drawing);
}

function renderedSvg(figure: Figure): SVGSVGElement {
  const place = document.createElement("div");
  const root = createRoot(place);
  flushSync(() => root.render(<FigureSvg figure={figure} paper={WHITE} />));
  const drawing = place.querySelector("svg")?.cloneNode(true);
  root.unmount();
  if (!(drawing instanceof SVGSVGElement)) throw new Error("standaloneSvg: the figure was not drawn");
  return drawing;
}

/** Not every program knows `baseline-shift`; all know `dy`, which goes on for what follows and so is taken back there. */
function lowerIndices(drawing: SVGSVGElement): void {
  for (const index of drawing.querySelectorAll("[baseline-shift]")) {
    index.removeAttribute("baseline-shift");
    const drop = Number(index.closest("text")?.getAttribute("font-size") ?? 16) * 0.22;
    index.setAttribute("dy", drop.toFixed(2));
    index.nextElementSibling?.setAttribute("dy", (-drop).toFixed(2));
  }
}

function element(name: string, attributes: Readonly<Record<string, string | number>>): SVGElement {
  const made = document.createElementNS(NAMESPACE, name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, String(value));
  return made;
}
