import { type QuantityProblem, type Rational, readAnyQuantity, toNumber, type UnitSymbol } from "../quantity";
import { complex } from "../solve/complex";
import { refuse } from "./entryProblem";
import { type Reader, take } from "./reader";
import { findGiven } from "./readName";
import { type Operand, OTHER, type Writing } from "./token";
import { bareValue, complexValue, exactValue, unitValueOf, type Value } from "./value";

const DIGITS = /(?:\d|[.,]\d)(?:[ .,]?\d)*(?:\.(?![.,\d]))?(?:[eE][+-]?\d+)?/y;
// Never the start of a word that belongs to a sinusoid, so that `5Vcos(…)` and `4kj` fall apart there.
const UNIT_WORD = /( *)((?:(?!cos|sin|rms|peak)[A-Za-zΩ°℧])+)(?![\p{L}\p{Nd}_₀-₉])/uy;
const UNIT_BEFORE_WORD = /( *)((?:(?!cos|sin|rms|peak|j)[A-Za-zΩ°℧])+)(?=cos|sin|rms|peak|j(?![\p{L}\p{Nd}_]))/uy;
/** Units of the letter code, which are no units by themselves. */
const LETTERS_OF_CODE = /^[RL]$/;
const LETTER_CODE = /\d+[RKMGLkpnumF]\d+(?:\.\d+)?(?![\d.,])/uy;

/** Reads a number that begins here, with the unit behind it. Refuses what `quantity/` can't read as a number. */
export function readNumberToken(reader: Reader): ReadNumber {
  const code = take(reader, LETTER_CODE)?.[0];
  const digits = code ?? (take(reader, DIGITS)?.[0] as string);
  const number = quantityOf(digits);
  if (!number.ok) return refuse({ code: "quantity", problem: number.problem });
  const word = readUnitWord(reader);
  if (word === null) return code === undefined ? bareNumber(digits, number.value) : operand(code, number, OTHER);
  const whole = quantityOf(digits + word);
  if (!whole.ok) return refuse({ code: "quantity", problem: whole.problem });
  const isCounted = code === undefined && whole.unit !== null;
  return operand(digits + word, whole, isCounted ? { as: "withUnit", count: number.value } : OTHER);
}

type ReadNumber = Operand & { readonly text: string };
type ReadQuantity =
  | { readonly ok: true; readonly value: Rational; readonly unit: UnitSymbol | null }
  | { readonly ok: false; readonly problem: QuantityProblem };

function quantityOf(text: string): ReadQuantity {
  const read = readAnyQuantity(text);
  if (!read.ok) return read;
  if (read.value.kind === "quantity") return { ok: true, value: read.value.value, unit: read.value.unit };
  throw new Error(`quantityOf: "${text}" is a sinusoid`);
}

function bareNumber(text: string, value: Rational): ReadNumber {
  return { kind: "operand", text, value: bareValue(value), writing: { as: "bare" } };
}

function operand(text: string, { value, unit }: ReadQuantity & { ok: true }, writing: Writing): ReadNumber {
  return { kind: "operand", text, value: unit === null ? exactValue(value, "open") : valueIn(unit, value), writing };
}

/**
 * The word behind a number, with the spaces before it, where it is a unit or prefix, or looks like one that went wrong;
 * null where it is something else.
 */
function readUnitWord(reader: Reader): string | null {
  const start = reader.at;
  const [whole, spaces = "", word = ""] = take(reader, UNIT_BEFORE_WORD) ?? take(reader, UNIT_WORD) ?? [];
  if (whole === undefined) return null;
  const unit = quantityOf(`1 ${word}`);
  const name = reader.names?.(reader.text, start + spaces.length) ?? null;
  const isName = name !== null && name.length > word.length;
  const isPart = findGiven(reader, word) !== undefined || name !== null;
  // `2k` has a prefix; `2 k` may be twice a part named k. A unit such as V is one wherever it stands.
  const isDoubtful = !unit.ok || unit.unit === null || LETTERS_OF_CODE.test(word);
  const isOther = !unit.ok && unit.problem.code === "unknownUnit" && unit.problem.similar.length === 0;
  if (isOther || isName || (isPart && isDoubtful && (spaces !== "" || !unit.ok))) {
    reader.at = start;
    return null;
  }
  return whole;
}

/** A unit that stands by itself, as in `(3/7) mA`; null where the word is none. A prefix alone counts behind ")". */
export function loneUnit(word: string, isBehindParenthesis: boolean): Operand | null {
  const read = quantityOf(`1 ${word}`);
  if (!read.ok) return null;
  if (read.unit !== null && !LETTERS_OF_CODE.test(word)) {
    return { kind: "operand", value: valueIn(read.unit, read.value), writing: { as: "unit" } };
  }
  if (!isBehindParenthesis || read.unit !== null) return null;
  return { kind: "operand", value: exactValue(read.value, "open"), writing: { as: "unit" } };
}

/** Degrees become radians, since functions count in those. */
function valueIn(unit: UnitSymbol, value: Rational): Value {
  return unit === "°" ? complexValue(complex((toNumber(value) * Math.PI) / 180)) : unitValueOf(unit, value);
}
