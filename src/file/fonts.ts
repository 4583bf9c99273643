/** A font face that drawings are set in. */
export type Face = { readonly family: string; readonly weight: string; readonly style: string };

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
  const rules = fontRules().filter(({ rule }) => isUsed(rule, text));
  const embedded = await Promise.all(rules.map(embeddedRule));
  return embedded.join("\n");
}

/** A rule of this page's, and the address that those in it are relative to. */
export type PlacedRule = { readonly rule: CSSFontFaceRule; readonly base: string };

/** The `@font-face` rules of this page. */
export function fontRules(): readonly PlacedRule[] {
  return [...document.styleSheets].flatMap(rulesOf);
}

function rulesOf(sheet: CSSStyleSheet): readonly PlacedRule[] {
  const base = sheet.href ?? document.baseURI;
  return [...sheet.cssRules].flatMap((rule) => (rule instanceof CSSFontFaceRule ? [{ rule, base }] : []));
}

function isUsed(rule: CSSFontFaceRule, text: string): boolean {
  const isWanted = FACES.some((face) => isFace(rule, face));
  return isWanted && coversSome(rule.style.getPropertyValue("unicode-range"), text);
}

/** Whether a rule gives this face. */
export function isFace({ style }: CSSFontFaceRule, face: Face): boolean {
  const given = style.getPropertyValue("font-weight");
  const weight = { normal: "400", bold: "700", "": "400" }[given] ?? given;
  return (
    style.getPropertyValue("font-family").replaceAll(/["']/g, "") === face.family &&
    weight === face.weight &&
    (style.getPropertyValue("font-style") || "normal") === face.style
  );
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

/** The font of a rule in one of the formats that the rule offers. */
export async function fetchFont({ rule, base }: PlacedRule, format: "woff2" | "ttf"): Promise<ArrayBuffer> {
  const offered = [...rule.style.getPropertyValue("src").matchAll(/url\(["']?([^"')]+)["']?\)/g)];
  const address = offered.map(([, each = ""]) => each).find((each) => each.endsWith(`.${format}`));
  if (!address) throw new Error(`the page has no font ${rule.style.getPropertyValue("font-family")} as ${format}`);
  const response = await fetch(new URL(address, base));
  if (!response.ok) throw new Error(`the font ${address} is not served (${response.status})`);
  return response.arrayBuffer();
}

async function embeddedRule(placed: PlacedRule): Promise<string> {
  const { style } = placed.rule;
  const font = base64(new Uint8Array(await fetchFont(placed, "woff2")));
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
