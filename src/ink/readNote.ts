import type { Box, Spot } from "../figure";
import type { Face, Matrix, NotePiece } from "./noteDrawing";

/** Takes apart what an element shows: its letters, lines and shapes, with `origin` of the drawing at its upper left corner. */
export function readPieces(element: HTMLElement, origin: Spot): readonly NotePiece[] {
  const corner = element.getBoundingClientRect();
  const reader = new Reader(element, { x: origin.x - corner.x, y: origin.y - corner.y });
  reader.read(element);
  return reader.pieces;
}

class Reader {
  readonly pieces: NotePiece[] = [];
  readonly #ascents = new Map<string, number>();

  constructor(
    private readonly root: HTMLElement,
    private readonly shift: Spot,
  ) {}

  read(element: Element): void {
    // What KaTeX writes for screen readers is in the page, and is not seen.
    if (element.classList.contains("katex-mathml")) return;
    if (element instanceof SVGSVGElement) {
      this.#readShapes(element);
      return;
    }
    const style = getComputedStyle(element);
    if (element !== this.root) this.#readBorders(element, style);
    for (const child of element.childNodes) {
      if (child instanceof Text) this.#readText(child, style);
      else if (child instanceof Element) this.read(child);
    }
  }

  /** Letters of mathematics one by one, each where it stands; words a line at a time. */
  #readText(node: Text, style: CSSStyleDeclaration): void {
    const face = faceOf(style);
    const size = Number.parseFloat(style.fontSize);
    const isMath = this.#isMath(node);
    for (const { text, left, right, top } of linesOf(charactersOf(node), isMath)) {
      const y = top + this.#ascentOf(style) + this.shift.y;
      const place = { x: left + this.shift.x, y, width: right - left };
      this.pieces.push({ kind: "text", text, ...place, face, size, colour: style.color });
    }
  }

  #isMath(node: Text): boolean {
    return node.parentElement?.closest(".katex") !== null;
  }

  /** How far the baseline of a font lies below the top of its letters' boxes, asked of the browser once a font. */
  #ascentOf(style: CSSStyleDeclaration): number {
    const font = `${style.fontStyle} ${style.fontWeight} ${style.fontSize} ${style.fontFamily}`;
    const known = this.#ascents.get(font);
    if (known !== undefined) return known;
    const line = document.createElement("div");
    line.style.cssText = "position:absolute;left:0;top:0;white-space:pre";
    line.style.font = font;
    const letter = document.createTextNode("x");
    const foot = document.createElement("span");
    // Something without height stands on the baseline.
    foot.style.cssText = "display:inline-block;width:0;height:0";
    line.append(letter, foot);
    this.root.append(line);
    const range = document.createRange();
    range.selectNode(letter);
    const ascent = foot.getBoundingClientRect().bottom - range.getBoundingClientRect().top;
    line.remove();
    this.#ascents.set(font, ascent);
    return ascent;
  }

  #readBorders(element: Element, style: CSSStyleDeclaration): void {
    const box = element.getBoundingClientRect();
    const [left, right, top, bottom] = [box.left, box.right, box.top, box.bottom];
    const sides = [
      ["Top", (w: number) => [left, top + w / 2, right, top + w / 2]],
      ["Bottom", (w: number) => [left, bottom - w / 2, right, bottom - w / 2]],
      ["Left", (w: number) => [left + w / 2, top, left + w / 2, bottom]],
      ["Right", (w: number) => [right - w / 2, top, right - w / 2, bottom]],
    ] as const;
    for (const [side, endsOf] of sides) {
      const width = Number.parseFloat(style[`border${side}Width`]);
      const look = style[`border${side}Style`];
      if (!(width > 0) || look === "none" || look === "hidden") continue;
      const [x1 = 0, y1 = 0, x2 = 0, y2 = 0] = endsOf(width);
      if (Math.hypot(x2 - x1, y2 - y1) < 0.01) continue;
      const spot = (x: number, y: number): Spot => ({ x: round(x + this.shift.x), y: round(y + this.shift.y) });
      const colour = style[`border${side}Color`];
      this.pieces.push({
        kind: "line",
        from: spot(x1, y1),
        to: spot(x2, y2),
        width,
        colour,
        isDashed: look === "dashed",
      });
    }
  }

  #readShapes(svg: SVGSVGElement): void {
    const clip = this.#clipOf(svg);
    for (const shape of svg.querySelectorAll<SVGGraphicsElement>("path, line")) {
      const to = shape.getScreenCTM();
      if (!to) continue;
      const style = getComputedStyle(shape);
      const matrix: Matrix = [to.a, to.b, to.c, to.d, to.e + this.shift.x, to.f + this.shift.y];
      const isLine = shape instanceof SVGLineElement;
      const path = isLine ? linePath(shape) : (shape.getAttribute("d") ?? "");
      const width = isLine ? Number.parseFloat(style.strokeWidth) : null;
      this.pieces.push({ kind: "shape", path, matrix, clip, width, colour: isLine ? style.stroke : style.fill });
    }
  }

  /** What is seen of an element: its box within those of all around it that cut off what leaves them. */
  #clipOf(element: Element): Box {
    let { left, top, right, bottom } = element.getBoundingClientRect();
    for (let at = element.parentElement; at && at !== this.root; at = at.parentElement) {
      if (getComputedStyle(at).overflowX !== "hidden") continue;
      const box = at.getBoundingClientRect();
      [left, top] = [Math.max(left, box.left), Math.max(top, box.top)];
      [right, bottom] = [Math.min(right, box.right), Math.min(bottom, box.bottom)];
    }
    return { x: left + this.shift.x, y: top + this.shift.y, width: right - left, height: bottom - top };
  }
}

type Line = { readonly text: string; readonly left: number; readonly right: number; readonly top: number };
type Character = { readonly text: string; readonly box: DOMRect };

/** Characters that stand beside each other as one text, or each by itself. What takes no room, and blank ends, are left out. */
function linesOf(characters: Iterable<Character>, isApart: boolean): readonly Line[] {
  const lines: Line[] = [];
  for (const { text, box } of characters) {
    if (/[\n\u200b]/.test(text)) continue;
    const { left, right, top } = box;
    const last = lines.at(-1);
    if (isApart || !last || Math.abs(top - last.top) > 1) {
      if (text.trim() !== "") lines.push({ text, left, right, top });
    } else if (text.trim() === "") lines[lines.length - 1] = { ...last, text: last.text + text };
    else lines[lines.length - 1] = { ...last, text: last.text + text, right };
  }
  return lines.map((line) => ({ ...line, text: line.text.trimEnd() }));
}

/** The characters of a text with their boxes on the screen. */
function* charactersOf(node: Text): Iterable<Character> {
  const range = document.createRange();
  let at = 0;
  for (const text of node.data) {
    range.setStart(node, at);
    range.setEnd(node, at + text.length);
    at += text.length;
    yield { text, box: range.getBoundingClientRect() };
  }
}

function faceOf(style: CSSStyleDeclaration): Face {
  const family = style.fontFamily.split(",")[0]?.replaceAll(/["']/g, "").trim() ?? "";
  return { family, weight: style.fontWeight, style: style.fontStyle };
}

/** Its ends in the measure of its own matrix; a percentage is one of the picture's size. */
function linePath({ x1, y1, x2, y2 }: SVGLineElement): string {
  return `M${x1.baseVal.value} ${y1.baseVal.value}L${x2.baseVal.value} ${y2.baseVal.value}`;
}

function round(value: number): number {
  return Math.round(value * 100) / 100;
}
