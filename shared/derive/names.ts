import type { NodeId, PartId } from "../circuit";

/** A symbol in plain text and in LaTeX mathematics: `I(R3)` and `I_{R3}`. */
export type Name = { readonly text: string; readonly latex: string };

const SPECIAL = /[\\{}$&#^_%~]/g;

/** Free text inside mathematics. */
export function latexText(text: string): string {
  const escaped = text.replace(SPECIAL, (sign) => (sign === "\\" ? "\\backslash " : `\\${sign}`));
  return `\\text{${escaped.replace(/\\\^|\\~/g, " ")}}`;
}

/** One letter is set as a variable, anything longer upright. */
function subscript(text: string): string {
  if (/^[A-Za-z]$|^\d+$/.test(text)) return text;
  if (/^[A-Za-z0-9]+$/.test(text)) return `\\mathrm{${text}}`;
  return latexText(text);
}

/** `R3` as R with the subscript 3; a name that does not start so is set as it is. */
export function symbolOf(id: string): Name {
  const match = /^([A-Za-z])([A-Za-z0-9]+)$/.exec(id);
  if (match) return { text: id, latex: `${match[1]}_{${subscript(match[2] as string)}}` };
  return { text: id, latex: /^[A-Za-z]$/.test(id) ? id : latexText(id) };
}

/** The impedance of a part: `Z(C1)`. */
export function impedanceName(part: string): Name {
  return { text: `Z(${part})`, latex: `Z_{${subscript(part)}}` };
}

/** The current through something: `I(R3)`. */
export function currentName(through: string): Name {
  return { text: `I(${through})`, latex: `I_{${subscript(through)}}` };
}

/** The voltage of a node, or of one less that of another where the other is not the reference: `V(a)`, `V(a, b)`. */
export function voltageName(from: NodeId, to: NodeId | null): Name {
  if (to === null) return { text: `V(${from})`, latex: `V_{${subscript(from)}}` };
  const pair = from.length === 1 && to.length === 1 ? `${subscript(from)}${subscript(to)}` : null;
  return { text: `V(${from}, ${to})`, latex: `V_{${pair ?? `${subscript(from)},${subscript(to)}`}}` };
}

/** `R45` for R4 and R5 together; numbered where the names don't join well. */
export function combinedName(ids: readonly string[], letter: string, number: number): Name {
  const digits = ids.map((id) => /^R(\d+)$/.exec(id)?.[1] ?? null);
  const isPlain = letter === "R" && digits.every((digit) => digit !== null) && digits.length <= 6;
  if (!isPlain) return { text: `${letter}e${number}`, latex: `${letter}_{\\mathrm{e${number}}}` };
  const joined = [...digits].sort((a, b) => Number(a) - Number(b));
  const text = joined.every((digit) => digit?.length === 1) ? joined.join("") : joined.join(",");
  return { text: `R${text}`, latex: `R_{${text}}` };
}

const PRIMES = ["′", "″", "‴"];

/** The addend of a quantity: `Iy′`, `Iy″`, `Iy‴`, then `Iy⁽⁴⁾`. */
export function addendName(total: Name, index: number): Name {
  const prime = PRIMES[index];
  if (prime !== undefined)
    return { text: total.text + prime, latex: `{${total.latex}}^{${"\\prime".repeat(index + 1)}}` };
  const digits = `${index + 1}`.replace(/\d/g, (digit) => "⁰¹²³⁴⁵⁶⁷⁸⁹".charAt(Number(digit)));
  return { text: `${total.text}⁽${digits}⁾`, latex: `{${total.latex}}^{(${index + 1})}` };
}

/** The name that people gave to what they want, or one made from what it is. */
export function quantityName(given: string): Name {
  const made = /^([IVPRZ])\(([^()]+)\)$/.exec(given);
  if (!made) return symbolOf(given);
  return { text: given, latex: `${made[1]}_{${subscript((made[2] as string).replace(/, /g, ","))}}` };
}

/** Parts as one name each, for sentences. */
export function partNames(parts: readonly PartId[]): string[] {
  return [...new Set<string>(parts)];
}
