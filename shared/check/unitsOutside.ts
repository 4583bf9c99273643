import { divide, isZero, multiply } from "../quantity";
import { PURE, sameDimension } from "./dimension";
import { type Operand, OTHER, type Token } from "./token";
import { bareValue, exactValue } from "./value";

/**
 * The same tokens read in the second of two ways, null where there is one only: `3/7 mS` as three sevenths of a millisiemens
 * and `2/(3 + 4) mS` as a number of millisiemens, which as signs go divide by what has the unit; and `6 − j8 V` as so many
 * volts, which as signs go has one term without a unit.
 */
export function withUnitsOutside(tokens: readonly Token[]): readonly Token[] | null {
  const summed = sumsWithUnits(tokens);
  return partsWithUnits(summed ?? tokens) ?? summed;
}

/** With the unit of each sum that has one at its end outside of it: in parentheses without others inside, or all in all. */
function sumsWithUnits(tokens: readonly Token[]): readonly Token[] | null {
  const whole = sumWithUnit(tokens);
  if (whole !== null) return whole;
  let isChanged = false;
  const done: Token[] = [];
  for (const token of tokens) {
    const opened = done.findLastIndex(({ kind }) => kind === "open");
    const inside = token.kind === "close" ? sumWithUnit(done.slice(opened + 1)) : null;
    if (inside !== null) {
      isChanged = true;
      done.splice(opened + 1, done.length, ...inside);
    }
    done.push(token);
  }
  return isChanged ? done : null;
}

function partsWithUnits(tokens: readonly Token[]): readonly Token[] | null {
  const joined: Token[] = [];
  let isChanged = false;
  for (const token of tokens) {
    const fraction = fractionOf(joined, token);
    isChanged ||= fraction !== null;
    if (fraction) joined.splice(-2, 2, fraction);
    else if (isUnitBehind(joined.at(-1), token)) {
      isChanged = true;
      joined.push({ kind: "sign", sign: "*", text: "" }, token);
    } else joined.push(token);
  }
  return isChanged ? joined : null;
}

/** `6 − j8 V`, `5 + 2 cos(1000 t) V`: a sum of plain numbers, of all of which the unit at its end is. */
function sumWithUnit(tokens: readonly Token[]): readonly Token[] | null {
  const last = tokens.at(-1);
  const counted = last?.kind === "operand" ? countedUnit(last, last.text) : null;
  if (counted === null) return null;
  const plain = [...tokens.slice(0, -1), ...counted.count];
  const isSum = plain.some((token, i) => i > 0 && token.kind === "sign" && (token.sign === "+" || token.sign === "-"));
  if (!isSum || !plain.every(isPlain)) return null;
  const sign = { kind: "sign", sign: "*", text: "" } as const;
  return [{ kind: "open", text: "" }, ...plain, { kind: "close", text: "" }, sign, counted.unit];
}

/** The last number of a sum without its unit, where it has one, and the unit. */
function countedUnit(last: Operand, text: string): { readonly count: readonly Token[]; readonly unit: Token } | null {
  const { value, writing } = last;
  if (writing.as === "unit") return { count: [], unit: { ...last, text } };
  if (writing.as !== "withUnit" || value.number.kind !== "exact" || isZero(writing.count)) return null;
  const digits = text.replace(/[^\d]+$/, "");
  const one = exactValue(divide(value.number.value, writing.count), value.dimension);
  return {
    count: [{ kind: "operand", text: digits, value: bareValue(writing.count), writing: { as: "bare" } }],
    unit: { kind: "operand", text: text.slice(digits.length), value: one, writing: { as: "unit" } },
  };
}

function isPlain(token: Token): boolean {
  if (token.kind === "sign") return token.sign !== "/" && token.sign !== "∥";
  if (token.kind !== "operand") return false;
  const { value, writing } = token;
  return writing.as === "bare" || (value.dimension !== "open" && sameDimension(value.dimension, PURE));
}

function isUnitBehind(before: Token | undefined, token: Token): boolean {
  const isUnit = token.kind === "operand" && token.writing.as === "unit";
  return isUnit && (before?.kind === "operand" || before?.kind === "close" || before?.kind === "power");
}

function fractionOf(before: readonly Token[], token: Token): Token | null {
  const [earlier, top, slash] = [before.at(-3), before.at(-2), before.at(-1)];
  if (slash?.kind !== "sign" || slash.sign !== "/" || top?.kind !== "operand" || top.writing.as !== "bare") return null;
  if (token.kind !== "operand" || token.writing.as !== "withUnit" || isZero(token.writing.count)) return null;
  // `a/3/7 mS` divides twice.
  if (earlier?.kind === "sign" && earlier.sign === "/") return null;
  const [numerator, { number, dimension }] = [top.value.number, token.value];
  if (numerator.kind !== "exact" || number.kind !== "exact") return null;
  const unit = divide(number.value, token.writing.count);
  const value = multiply(divide(numerator.value, token.writing.count), unit);
  const text = `${top.text}/${token.text}`;
  return { kind: "operand", text, value: { number: { kind: "exact", value }, dimension }, writing: OTHER };
}
