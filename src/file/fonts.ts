/** A font face that drawings are set in. */
type Face = { readonly family: string; readonly weight: string; readonly style: string };

const FACES: readonly Face[] = [
  { family: "Atkinson Hyperlegible", weight: "400", style: "normal" },
  { family: "Atkinson Hyperlegible", weight: "700", style: "normal" },
  { family: "KaTeX_Math", weight: "400", style: "italic" },
  // Has what the first lacks: Ω, ∠ and the primes.
  { family: "KaTeX_Main", weight: "400", style: "normal" },
];

/**
 * `@font-face` rules for every face that a drawing with this text may be set in, with the fonts themselves inside, so
 * that the drawing looks the same where they are not installed. The fonts are those of this page.
 */
export async function embeddedFonts(text: string): Promise<string> {
  const rules = [...document.styleSheets].flatMap(fontRules).filter(({ rule }) => isUsed(rule, text));
  const embedded = await Promise.all(rules.map(embeddedRule));
  return embedded.join("\n");
}

type PlacedRule = { readonly rule: CSSFontFaceRule; readonly base: string };

function fontRules(sheet: CSSStyleSheet): readonly PlacedRule[] {
  const base = sheet.href ?? document.baseURI;
  return [...sheet.cssRules].flatMap((rule) => (rule instanceof CSSFontFaceRule ? [{ rule, base }] : []));
}

function isUsed({ style }: CSSFontFaceRule, text: string): boolean {
  const family = style.getPropertyValue("font-family").replaceAll(/["']/g, "");
  const weight = { normal: "400", bold: "700", "": "400" }[style.getPropertyValue("font-weight")];
  const isWanted = FACES.some(
    (face) =>
      face.family === family &&
      face.weight === (weight ?? style.getPropertyValue("font-weight")) &&
      face.style === (style.getPropertyValue("font-style") || "normal"),
  );
  return isWanted && coversSome(style.getPropertyValue("unicode-range"), text);
}

/** Whether a `unicode-range` such as `U+0-FF, U+2212` holds a character of the text; an empty one holds all. */
export function coversSome(range: string, text: string): boolean {
  const spans = [...range.matchAll(/U\+([0-9A-F?]+)(?:-([0-9A-F]+))?/gi)].map(([, from = "", to]) => [
    Number.parseInt(from.replaceAll("?", "0"), 16),
    Number.parseInt(to ?? from.replaceAll("?", "F"), 16),
  ]);
  if (spans.length === 0) return true;
  return [...text].some((character) => {
    const code = character.codePointAt(0) as number;
    return spans.some(([from, to]) => code >= (from as number) && code <= (to as number));
  });
}

async function embeddedRule({ rule, base }: PlacedRule): Promise<string> {
  const { style } = rule;
  const [, address = ""] = /url\(["']?([^"')]+)["']?\)/.exec(style.getPropertyValue("src")) ?? [];
  const response = await fetch(new URL(address, base));
  if (!response.ok) throw new Error(`the font ${address} is not served (${response.status})`);
  const font = base64(new Uint8Array(await response.arrayBuffer()));
  const keep = ["font-family", "font-weight", "font-style", "unicode-range"].flatMap((property) => {
    const value = style.getPropertyValue(property);
    return value === "" ? [] : [`${property}: ${value};`];
  });
  return `@font-face { ${keep.join(" ")} src: url(data:font/woff2;base64,${font}) format("woff2"); }`;
}

function base64(bytes: Uint8Array): string {
  let text = "";
  // One call with all bytes would have more arguments than a call may have.
  for (let i = 0; i < bytes.length; i += 8192) text += String.fromCharCode(...bytes.subarray(i, i + 8192));
  return btoa(text);
}
