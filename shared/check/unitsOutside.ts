import { divide, isZero, multiply } from "../quantity";
import { OTHER, type Token } from "./token";

/**
 * The same tokens read in the second of two ways, null where there is one only: `3/7 mS` as three sevenths of a millisiemens
 * and `2/(3 + 4) mS` as a number of millisiemens. As signs go, both divide by what has the unit.
 */
export function withUnitsOutside(tokens: readonly Token[]): readonly Token[] | null {
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
