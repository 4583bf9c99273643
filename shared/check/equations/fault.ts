import { rational } from "../../quantity";
import { powerOfTenIn } from "../closeness";
import type { Givens } from "../givens";
import { addNumbers, multiplyNumbers, sizeOf, subtractNumbers } from "../numbers";
import { asComplex, type EnteredNumber, isReal } from "../value";
import type { EquationDiagnosis } from "./equationJudgement";
import { roomOf } from "./rounding";
import { matched, type Side, type SideTerm } from "./side";

/** Share of its terms that rounding in doubles may leave of a sum. */
const ROUNDING = 1e-9;
/** Beyond this share of its terms no rounding explains what is left. */
const MOST_ROOM = 0.1;
/** Digits of powers of ten between two sides that count as the same. */
const POWER_FIGURES = 6;

/** What is wrong where the sides of an equation, each beside the next, are not equal; null where all are. */
export function faultOf(sides: readonly Side[], givens: Givens, figures: number): EquationDiagnosis | null {
  for (const [i, left] of sides.entries()) {
    const right = sides[i + 1];
    const fault = right === undefined ? null : pairFault(left, right, givens, figures);
    if (fault !== null) return fault;
  }
  return null;
}

function pairFault(left: Side, right: Side, givens: Givens, figures: number): EquationDiagnosis | null {
  const sides = matched(left, right);
  if (!sides.ok) return { code: "otherUnit", left: sides.left, right: sides.right };
  const [a, b] = [sides.left.value.number, sides.right.value.number];
  const terms = [...left.terms, ...right.terms.map((term) => ({ ...term, sign: -term.sign }) as SideTerm)];
  const scale = Math.max(sizeOf(a), sizeOf(b), ...terms.map(({ value }) => sizeOf(value.number)));
  const rest = subtractNumbers(a, b);
  let room: number | null = null;
  const isNothing = (number: EnteredNumber): boolean => {
    const size = sizeOf(number);
    if (size === 0 || (number.kind !== "exact" && size <= ROUNDING * scale)) return true;
    if (size > MOST_ROOM * scale || figures === Number.POSITIVE_INFINITY) return false;
    room ??= (roomOf(sides.left, figures, givens) + roomOf(sides.right, figures, givens)) * (1 + ROUNDING);
    return size <= room;
  };
  if (isNothing(rest)) return null;
  if (isNothing(addNumbers(a, b))) return { code: "sideTurned" };
  // Terms that do not make up the difference were read in another way than their sides.
  const made = terms.reduce<EnteredNumber>((total, term) => addNumbers(total, times(term, 1)), NOTHING);
  const known = sizeOf(subtractNumbers(made, rest)) <= ROUNDING * scale ? terms : [];
  return termFault(known, left.terms.length, rest, isNothing) ?? comparison(a, b);
}

const NOTHING: EnteredNumber = { kind: "exact", value: rational(0n) };

/** A term so many times, with its sign. */
function times({ sign, value }: SideTerm, factor: number): EnteredNumber {
  return multiplyNumbers({ kind: "exact", value: rational(BigInt(sign * factor)) }, value.number);
}

/** The one term whose sign, or whose being there, is all that is wrong. */
function termFault(
  terms: readonly SideTerm[],
  lefts: number,
  rest: EnteredNumber,
  isNothing: (number: EnteredNumber) => boolean,
): EquationDiagnosis | null {
  const isAlone = (i: number): boolean => (i < lefts ? lefts === 1 : terms.length - lefts === 1);
  const solving = (factor: number) =>
    terms.flatMap((term, i) =>
      isNothing(subtractNumbers(rest, times(term, factor))) ? [{ term, isAlone: isAlone(i) }] : [],
    );
  const turned = solving(2);
  if (turned.some(({ isAlone }) => isAlone)) return { code: "sideTurned" };
  const [one, ...others] = turned;
  if (one !== undefined && others.length === 0) return { code: "termTurned", term: one.term.text };
  const [extra, ...more] = solving(1);
  if (extra === undefined || more.length > 0 || extra.isAlone) return null;
  return { code: "termTooMuch", term: extra.term.text };
}

/** How two sides compare. Not by how much: with one unknown in the equation, that would give it away. */
function comparison(a: EnteredNumber, b: EnteredNumber): EquationDiagnosis {
  const [left, right] = [sizeOf(a), sizeOf(b)];
  if (right === 0) return { code: "notNothing", side: "left" };
  if (left === 0) return { code: "notNothing", side: "right" };
  const [x, y] = [realOf(a), realOf(b)];
  const power = x !== null && y !== null ? powerOfTenIn(x / y, POWER_FIGURES) : null;
  if (power !== null) return { code: "powerOfTen", power };
  const larger = Math.abs(left - right) <= ROUNDING * left ? null : left > right ? "left" : "right";
  const signs = x === null || y === null ? null : x < 0 === y < 0 ? "same" : "opposite";
  return { code: "unequal", larger, signs };
}

function realOf(number: EnteredNumber): number | null {
  const value = asComplex(number);
  return value !== null && isReal(value) ? value.re : null;
}
