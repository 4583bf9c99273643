/**
 * A line as it was typed, as LaTeX: names with their indices, numbers with upright units, signs of multiplication. Null
 * where it holds anything that is not known here, and then stands as it was typed.
 */
export function lineLatex(text: string): string | null {
  let rest = text.trim();
  const pieces: string[] = [];
  while (rest !== "") {
    const piece = PIECES.map(({ pattern, write }) => ({ match: pattern.exec(rest), write })).find(({ match }) => match);
    if (!piece?.match) return null;
    pieces.push(piece.write(piece.match));
    rest = rest.slice(piece.match[0].length);
  }
  return pieces.length === 0 ? null : pieces.join("");
}

type Piece = { readonly pattern: RegExp; readonly write: (match: RegExpExecArray) => string };

/** Units that follow a number, with their prefixes. */
const UNIT = /^(?:[pnuµμmkMG]?(?:V|A|Ω|ohm|S|W|F|H|Hz)|rad\/s|[kMmuµμ])(?![A-Za-z0-9_(])/;

const PIECES: readonly Piece[] = [
  { pattern: /^\s+/, write: () => " " },
  {
    pattern: new RegExp(`^(\\d+(?:[.,]\\d+)?(?:e[+-]?\\d+)?)\\s*(${UNIT.source.slice(1)})?`),
    write: ([, number = "", unit]) => number.replace(",", "{,}") + (unit ? `\\,\\mathrm{${unitLatex(unit)}}` : ""),
  },
  { pattern: /^(sqrt|sin|cos|abs|conj)(?=\s*\()/, write: ([word]) => `\\operatorname{${word}}` },
  {
    pattern: /^([A-Za-z])\(([A-Za-z0-9]+)(?:\s*,\s*([A-Za-z0-9]+))?\)/,
    write: ([, letter = "", first = "", second]) =>
      `${letter}_{\\mathrm{${second === undefined ? first : `${first},${second}`}}}`,
  },
  {
    pattern: /^([A-Za-z])_?([A-Za-z0-9]*)(['′]*)/,
    write: ([, letter = "", index = "", primes = ""]) =>
      letter + (index ? `_{\\mathrm{${index}}}` : "") + "'".repeat(primes.length),
  },
  { pattern: /^(?:\|\||∥)/, write: () => "\\parallel " },
  { pattern: /^[*·×]/, write: () => "\\cdot " },
  { pattern: /^[-−]/, write: () => "-" },
  { pattern: /^∠\s*([-−]?\d+(?:[.,]\d+)?)\s*°?/, write: ([, angle = ""]) => `\\angle ${angle}^{\\circ}` },
  { pattern: /^≈/, write: () => "\\approx " },
  { pattern: /^[+=/()]/, write: ([sign]) => sign },
];

function unitLatex(unit: string): string {
  return unit
    .replace("ohm", "Ω")
    .replace("Ω", "\\Omega ")
    .replace(/^[uµμ]/, "\\mu ");
}
