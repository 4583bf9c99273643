import { flushSync } from "react-dom";
import { createRoot } from "react-dom/client";
import { type Figure, type FigureLayers, FigureSvg } from "../figure";
import { embeddedFonts } from "./fonts";
import { outlineMath } from "./outlines";
import { element } from "./svgElement";
import { boxOnPaper, WHITE } from "./whitePaper";

/**
 * A figure as an SVG document of its own, with what lies on it: on white, with its fonts inside, its formulas as
 * outlines, and with nothing in it that only some programs draw.
 */
export async function standaloneSvg(figure: Figure, title: string, layers: FigureLayers): Promise<string> {
  const drawing = renderedSvg(figure, layers);
  const box = boxOnPaper(figure, layers.box);
  const { width, height } = box;
  for (const name of ["class", "aria-hidden", "focusable"]) drawing.removeAttribute(name);
  drawing.setAttribute("viewBox", `${box.x} ${box.y} ${width} ${height}`);
  drawing.setAttribute("width", String(width));
  drawing.setAttribute("height", String(height));
  drawing.setAttribute("font-family", '"Atkinson Hyperlegible", KaTeX_Main, sans-serif');
  drawing.setAttribute("role", "img");
  lowerIndices(drawing);
  await outlineMath(drawing);
  const paper = element("rect", { ...box, fill: WHITE.sheet });
  const style = element("style", {});
  style.textContent = await embeddedFonts(drawing.textContent ?? "");
  const name = element("title", {});
  name.textContent = title;
  drawing.prepend(name, style, paper);
  return new XMLSerializer().serializeToString(drawing);
}

function renderedSvg(figure: Figure, layers: FigureLayers): SVGSVGElement {
  const place = document.createElement("div");
  const root = createRoot(place);
  flushSync(() => root.render(<FigureSvg figure={figure} layers={layers} paper={WHITE} />));
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
