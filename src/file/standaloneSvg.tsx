import { flushSync } from "react-dom";
import { createRoot } from "react-dom/client";
import { type Box, type Figure, FigureSvg, growBox, PAPERS, type Paper } from "../figure";
import { embeddedFonts } from "./fonts";

export type StandaloneSvg = { readonly text: string; readonly width: number; readonly height: number };

const NAMESPACE = "http://www.w3.org/2000/svg";
/** Drawings that leave the page stand on white. */
const WHITE: Paper = { ...PAPERS.light, sheet: "#ffffff" };
const MARGIN = 24;

/**
 * A figure as an SVG document of its own: on white, with its fonts inside, and with nothing in it that only some
 * programs draw. Width and height are in CSS pixels.
 */
export async function standaloneSvg(figure: Figure, title: string): Promise<StandaloneSvg> {
  const drawing = renderedSvg(figure);
  const box = onWholePixels(growBox(figure.extent, MARGIN));
  const { width, height } = box;
  for (const name of ["class", "aria-hidden", "focusable"]) drawing.removeAttribute(name);
  drawing.setAttribute("viewBox", `${box.x} ${box.y} ${width} ${height}`);
  drawing.setAttribute("width", String(width));
  drawing.setAttribute("height", String(height));
  drawing.setAttribute("font-family", '"Atkinson Hyperlegible", KaTeX_Main, sans-serif');
  drawing.setAttribute("role", "img");
  lowerIndices(drawing);
  const paper = element("rect", { ...box, fill: WHITE.sheet });
  const style = element("style", {});
  style.textContent = await embeddedFonts(drawing.textContent ?? "");
  const name = element("title", {});
  name.textContent = title;
  drawing.prepend(name, style, paper);
  return { text: new XMLSerializer().serializeToString(drawing), width, height };
}

/** The smallest box of whole pixels around a box, so that no edge of the paper is half covered. */
function onWholePixels({ x, y, width, height }: Box): Box {
  const [left, top] = [Math.floor(x), Math.floor(y)];
  return { x: left, y: top, width: Math.ceil(x + width) - left, height: Math.ceil(y + height) - top };
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
