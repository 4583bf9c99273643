import { fetchFont, fontRules, isFace } from "./fonts";
import { element } from "./svgElement";
import { type Outlines, readTrueType } from "./trueType";

/**
 * Puts outlines in place of the letters of mathematics in a drawing's notes, since a formula is legible only where each
 * letter has the very size and place that it was set in, and many programs do not take the fonts inside an SVG.
 * Letters that the font does not have stay letters.
 */
export async function outlineMath(drawing: SVGSVGElement): Promise<void> {
  const fonts = new Map<string, Promise<Outlines | null>>();
  const letters = [...drawing.querySelectorAll<SVGTextElement>("[data-mark] text[font-family]")];
  await Promise.all(
    letters.map(async (letter) => {
      const [family = "", weight = "", style = ""] = ["font-family", "font-weight", "font-style"].map(
        (name) => letter.getAttribute(name) ?? "",
      );
      const face = { family: family.split(",")[0] ?? "", weight, style };
      const key = Object.values(face).join(" ");
      const font = fonts.get(key) ?? outlinesOf(face);
      fonts.set(key, font);
      const outlines = await font;
      const path = outlines?.pathOf(letter.textContent ?? "") ?? null;
      if (outlines && path !== null) letter.replaceWith(outlineOf(letter, path, outlines.unitsPerEm));
    }),
  );
}

async function outlinesOf(face: Parameters<typeof isFace>[1]): Promise<Outlines | null> {
  const rule = fontRules().find((each) => isFace(each.rule, face));
  if (!rule) return null;
  return readTrueType(await fetchFont(rule, "ttf"));
}

function outlineOf(letter: SVGTextElement, path: string, unitsPerEm: number): SVGElement {
  const [x, y, size, fill] = ["x", "y", "font-size", "fill"].map((name) => letter.getAttribute(name) ?? "");
  const scale = (Number(size) / unitsPerEm).toFixed(5);
  return element("path", { d: path, transform: `translate(${x} ${y}) scale(${scale})`, fill: fill ?? "" });
}
