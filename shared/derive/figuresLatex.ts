const SUPERSCRIPT: Readonly<Record<string, string>> = {
  "⁰": "0",
  "¹": "1",
  "²": "2",
  "³": "3",
  "⁴": "4",
  "⁵": "5",
  "⁶": "6",
  "⁷": "7",
  "⁸": "8",
  "⁹": "9",
  "⁻": "-",
};
const SIGNS: readonly (readonly [RegExp, string])[] = [
  // A minus sign behind an angle would be spaced as one between two terms.
  [/ ∠ −/g, "\\,\\angle\\,{-}"],
  [/−/g, "-"],
  [/ × /g, " \\times "],
  [/ ∠ /g, "\\,\\angle\\,"],
  [/°/g, "^{\\circ}"],
  [/·/g, " \\cdot "],
  [/π/g, "\\pi "],
  // The imaginary unit stands upright, as it does in formulas (ISO 80000-2).
  [/\bj(?=\d)/g, "\\mathrm{j}"],
  [/\bcos\(/g, "\\cos("],
];
const UNIT = / (rms )?([TGMkmµnpf]?(?:Ω|S|V|A|W|F|Hz|H|s)|rad\/s)(?= rms|[ )]|$)( rms)?/g;

/** The usual case, which needs no search for anything else. */
const PLAIN = /^(−?)([\d.]+)(?: ([TGMkmµnpf]?)([ΩSVAW]))?$/;

/** A written number with its unit, or a sum of them in time, as LaTeX mathematics: `4.7 kΩ` as `4.7\,\mathrm{k\Omega}`. */
export function latexOfFigures(text: string): string {
  const plain = PLAIN.exec(text);
  if (plain !== null) {
    const [, sign = "", number = "", prefix = "", unit = ""] = plain;
    const letters = `${prefix === "µ" ? "\\mu " : prefix}${unit === "Ω" ? "\\Omega" : unit}`;
    return `${sign === "" ? "" : "-"}${number}${unit === "" ? "" : `\\,\\mathrm{${letters}}`}`;
  }
  const withUnits = text.replace(UNIT, (_all, _before, unit: string, rms = "") => {
    const letters = unit.replace("µ", "\\mu ").replace("Ω", "\\Omega ").trimEnd();
    return `\\,\\mathrm{${letters}${rms === "" ? "" : "\\ rms"}}`;
  });
  const withPowers = withUnits.replace(/[⁰¹²³⁴⁵⁶⁷⁸⁹⁻]+/g, (run) => {
    return `^{${[...run].map((sign) => SUPERSCRIPT[sign] ?? "").join("")}}`;
  });
  const withFractions = withPowers.replace(/(\d+)\/(\d+)/g, "\\frac{$1}{$2}");
  return SIGNS.reduce((latex, [sign, written]) => latex.replace(sign, written), withFractions);
}
