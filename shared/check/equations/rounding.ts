import { equal } from "../../quantity";
import { type Complex, complex, multiplyComplex } from "../../solve/complex";
import { halfUnit } from "../closeness";
import { unlessUnreadable } from "../entryProblem";
import type { Givens } from "../givens";
import { multiplyNumbers, sizeOf, subtractNumbers } from "../numbers";
import { doubleAsRational } from "../rounded";
import type { Token } from "../token";
import type { EnteredNumber, Value } from "../value";
import { type Reading, valueOfTokens } from "./side";

/**
 * By how much a side may be off because its numbers were rounded when they were written: the sum over all numbers with
 * as many figures as count, or more, and no given value. Shorter numbers are taken to be meant as they stand.
 */
export function roomOf({ tokens, value }: Reading, figures: number, givens: Givens): number {
  return tokens.reduce((room, token, i) => {
    const turned = token.kind === "operand" ? roundedOther(token, figures, givens) : null;
    return turned === null ? room : room + effectOf(tokens, i, turned, value.number);
  }, 0);
}

type Operand = Extract<Token, { kind: "operand" }>;

/** What makes thousands of a number without a unit, as in `4.727k`; in `4k7` more digits stand behind it. */
const PREFIX_ALONE = /^ *\p{L}$/u;

/** What a number may have been before it was rounded, at the edge of its last figure; null where it was not. */
function roundedOther({ text, value, writing }: Operand, figures: number, givens: Givens): Value | null {
  const [, digits, behind = ""] = /^(\d[\d ]*(?:[.,]\d+)?|[.,]\d+)(.*)$/.exec(text) ?? [];
  const isNumber = writing.as === "bare" || writing.as === "withUnit" || PREFIX_ALONE.test(behind);
  if (digits !== undefined && isNumber) {
    const count = significantIn(digits);
    if (count < figures || isGiven(value, givens)) return null;
    const size = sizeOf(value.number);
    const factor = doubleAsRational(1 + halfUnit(size, count) / size);
    return { ...value, number: multiplyNumbers(value.number, { kind: "exact", value: factor }) };
  }
  const angle = /(?:^[∠<] *[+-]? *|[+-] *)(\d[\d.,]*) *(?:°|deg|\)|$)/i.exec(text)?.[1];
  if (angle === undefined || significantIn(angle) < figures) return null;
  const decimals = /[.,](\d+)$/.exec(angle)?.[1]?.length ?? 0;
  const radians = (0.5 * 10 ** -decimals * Math.PI) / 180;
  return { ...value, number: turnedBy(value.number, complex(Math.cos(radians), Math.sin(radians))) };
}

/** A phasor, or every term of a function of time, with its phase changed. */
function turnedBy(number: EnteredNumber, turn: Complex): EnteredNumber {
  if (number.kind === "time") {
    const waves = number.value.waves.map((wave) => ({ ...wave, phasor: multiplyComplex(wave.phasor, turn) }));
    return { kind: "time", value: { ...number.value, waves } };
  }
  return multiplyNumbers(number, { kind: "complex", value: turn });
}

/** Significant figures of digits as they are written; zeros at the end of a whole number may be there for its size. */
function significantIn(digits: string): number {
  const plain = digits.replaceAll(" ", "");
  const isWhole = !/[.,]/.test(plain);
  const figures = plain.replace(/[.,]/, "").replace(/^0+/, "");
  return (isWhole ? figures.replace(/0+$/, "") : figures).length;
}

function isGiven({ number }: Value, givens: Givens): boolean {
  if (number.kind !== "exact") return false;
  return [...givens.values()].some(
    (given) => given?.number.kind === "exact" && equal(given.number.value, number.value),
  );
}

/** How much a side changes with one of its tokens. */
function effectOf(tokens: readonly Token[], place: number, value: Value, before: EnteredNumber): number {
  const changed = tokens.map((token, i) => (i === place && token.kind === "operand" ? { ...token, value } : token));
  return unlessUnreadable(() => sizeOf(subtractNumbers(valueOfTokens(changed).number, before))) ?? 0;
}
