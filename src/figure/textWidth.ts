import type { Run } from "./figure";

/**
 * Advance widths in hundredths of the type size, grouped by letter, of the fonts that figures are set in: measured
 * from Atkinson Hyperlegible (regular and bold) and KaTeX_Math, rounded to two hundredths. They keep labels apart
 * before any font is loaded; the renderer sets the real text.
 */
const REGULAR = widthTable({
  16: "'",
  18: "′",
  20: ",.:;",
  24: "l|·",
  28: " !ij`",
  30: '"()',
  32: "[]ft{}",
  34: "r",
  36: "-°″",
  38: "/\\",
  40: "1_",
  42: "Iy",
  44: "*v",
  46: "xz",
  48: "ks",
  50: "7Jc",
  52: "?a×‴",
  54: "2FLehnu≈",
  56: "<>ET^bdgop~µ",
  58: "35Vq",
  60: "$+69=PSYZ−",
  62: "48ABKRX",
  64: "0φ",
  66: "#Cw⁗",
  68: "DHNUπ",
  70: "&G",
  72: "O",
  74: "Ω",
  76: "Q",
  78: "@ω",
  82: "M",
  84: "Wm",
  90: "∠",
  92: "%",
});

const BOLD = widthTable({
  22: "'",
  24: ",.:;|′",
  26: "j",
  28: "!",
  30: "·",
  32: " `il",
  34: "[]",
  36: "()f{}",
  38: "-rt",
  40: '"°',
  42: "_",
  44: "*/1\\",
  46: "I",
  48: "″",
  52: "cvyz‴",
  54: "7FLsx~≈×",
  56: "9Jaeku",
  58: "2<>E^hno",
  60: "3bdgpqµ−",
  62: "$+458=?PSTZ",
  64: "6B",
  66: "0KRUV⁗",
  68: "ACDHY",
  70: "&NX",
  72: "Gwφ",
  76: "@Oπ",
  78: "#Q",
  80: "Ω",
  84: "Mω",
  88: "Wm",
  90: "∠",
  98: "%",
});

const SYMBOL = widthTable({
  22: "′",
  30: "l",
  34: "i",
  36: "t",
  42: "bj″",
  44: "Icq",
  46: "ersz",
  48: "fgovy",
  50: "p",
  52: "adk‴",
  56: "Jπ",
  58: "TVYhux",
  60: "nμ",
  62: "Sω",
  64: "FP",
  66: "⁗φ",
  68: "LUZ",
  72: "Cw",
  74: "AE",
  76: "BOR",
  78: "GΩ",
  80: "NQ",
  82: "DX",
  84: "HK",
  88: "m",
  94: "W",
  96: "M",
});

/** Of a letter that no table has. */
const OTHER = 66;

/** Scales of symbols and indices against the type size, as renderers set them. */
export const SYMBOL_SCALE = 1.08;
export const INDEX_SCALE = 0.74;

/** Width of a run in pixels at a type size. */
export function runWidth({ text, style }: Run, size: number): number {
  switch (style) {
    case "plain":
      return widthIn(REGULAR, text) * size;
    case "bold":
      return widthIn(BOLD, text) * size;
    case "symbol":
      return widthIn(SYMBOL, text) * size * SYMBOL_SCALE;
    case "index":
      return widthIn(REGULAR, text) * size * INDEX_SCALE;
  }
}

function widthIn(table: ReadonlyMap<string, number>, text: string): number {
  let width = 0;
  for (const letter of text) width += table.get(letter) ?? OTHER;
  return width / 100;
}

function widthTable(byWidth: Readonly<Record<number, string>>): ReadonlyMap<string, number> {
  const entries = Object.entries(byWidth).flatMap(([width, letters]) =>
    [...letters].map((letter) => [letter, Number(width)] as const),
  );
  return new Map(entries);
}
