export { greatestCommonDivisor, safeCommonDivisor, safeRemainder } from "./commonDivisor";
export { countWhile } from "./countWhile";
export { canonicalText } from "./cursor";
export { plainDigits } from "./numberText";
export { type QuantityFault, type QuantityProblem, quantityProblemText, type Reading } from "./problem";
export { readQuantity } from "./quantityText";
export {
  absolute,
  add,
  compare,
  divide,
  equal,
  integer,
  isZero,
  multiply,
  negate,
  ONE,
  type Rational,
  rational,
  rationalText,
  readRational,
  reciprocal,
  signOf,
  subtract,
  sum,
  toNumber,
  ZERO,
} from "./rational";
export {
  type Polar,
  type TimeTerm,
  writePhasor,
  writeSinusoid,
  writeSourceValue,
  writeTimeSum,
} from "./sinusoidWriting";
export { type AnyQuantity, readAnyQuantity, readSourceValue } from "./sourceText";
export {
  type Ampere,
  type Degree,
  type Farad,
  type Frequency,
  type Henry,
  type Ohm,
  type Quantity,
  quantity,
  type Ratio,
  type Siemens,
  type Sinusoid,
  type SourceValue,
  type UnitSymbol,
  type Volt,
} from "./unit";
export { kindInUnits, kindWithSymbol } from "./unitTable";
export type { UnitValue } from "./unitValue";
export { unreachable } from "./unreachable";
export { type WriteOptions, type Written, writeExact, writeFraction, writeNumber, writeQuantity } from "./writing";
