import { absolute, add, divide, isZero, multiply, negate, ONE, type Rational, rational, toNumber } from "../quantity";
import {
  addComplex,
  type Complex,
  complex,
  conjugate,
  divideComplex,
  magnitude,
  multiplyComplex,
} from "../solve/complex";
import { refuse } from "./entryProblem";
import { asComplex, type EnteredNumber, isReal, type TimeSum, type Wave } from "./value";

// The arithmetic of what is entered: exact as long as it can be, then complex doubles; functions of time may be added,
// and multiplied by real numbers.

/** Numerators and denominators beyond this are no step of a worked line. */
const SIZE_LIMIT = 1n << 4096n;
/** What is left of a sum of doubles below this share of its terms is rounding. */
const ROUNDING = 1e-12;

export function negateNumber(a: EnteredNumber): EnteredNumber {
  switch (a.kind) {
    case "exact":
      return exact(negate(a.value));
    case "complex":
      return { kind: "complex", value: { re: -a.value.re, im: -a.value.im } };
    case "time":
      return scaledTime(a.value, -1);
  }
}

export function addNumbers(a: EnteredNumber, b: EnteredNumber): EnteredNumber {
  if (a.kind === "exact" && b.kind === "exact") return exact(add(a.value, b.value));
  if (a.kind === "time" || b.kind === "time") return addTimes(timeOf(a), timeOf(b));
  const [x, y] = [complexOf(a), complexOf(b)];
  return doubles(settled(addComplex(x, y), magnitude(x) + magnitude(y)));
}

/** a − b. */
export function subtractNumbers(a: EnteredNumber, b: EnteredNumber): EnteredNumber {
  return addNumbers(a, negateNumber(b));
}

/** The size of a number: of a function of time, of all its terms together. */
export function sizeOf(number: EnteredNumber): number {
  switch (number.kind) {
    case "exact":
      return Math.abs(toNumber(number.value));
    case "complex":
      return magnitude(number.value);
    case "time":
      return number.value.waves.reduce(
        (total, { phasor }) => total + magnitude(phasor),
        Math.abs(number.value.constant),
      );
  }
}

export function multiplyNumbers(a: EnteredNumber, b: EnteredNumber): EnteredNumber {
  if (a.kind === "exact" && b.kind === "exact") return exact(multiply(a.value, b.value));
  if (a.kind === "time") return scaledTime(a.value, factorOf(b));
  if (b.kind === "time") return scaledTime(b.value, factorOf(a));
  return doubles(multiplyComplex(complexOf(a), complexOf(b)));
}

export function divideNumbers(a: EnteredNumber, b: EnteredNumber): EnteredNumber {
  if (b.kind === "time") return refuse({ code: "timesTime" });
  if (isNothing(b)) return refuse({ code: "dividedByZero" });
  if (a.kind === "exact" && b.kind === "exact") return exact(divide(a.value, b.value));
  if (a.kind === "time") return scaledTime(a.value, 1 / factorOf(b));
  return doubles(divideComplex(complexOf(a), complexOf(b)));
}

/** aⁿ for a whole number n. */
export function powerOf(a: EnteredNumber, n: number): EnteredNumber {
  if (a.kind === "time") return refuse({ code: "timesTime" });
  if (n < 0) return divideNumbers(exact(ONE), powerOf(a, -n));
  let power: EnteredNumber = exact(ONE);
  for (let i = 0; i < n; i++) power = multiplyNumbers(power, a);
  return power;
}

/** √a; of a negative number the root on the positive imaginary axis. */
export function rootOfNumber(a: EnteredNumber): EnteredNumber {
  if (a.kind === "time") return refuse({ code: "functionOfTime", name: "sqrt" });
  const root = a.kind === "exact" ? exactRoot(a.value) : null;
  if (root) return exact(root);
  const { re, im } = complexOf(a);
  const size = Math.hypot(re, im);
  const half = complex(Math.sqrt((size + re) / 2), Math.sqrt((size - re) / 2));
  return doubles(im < 0 ? conjugate(half) : half);
}

export function conjugateOf(a: EnteredNumber): EnteredNumber {
  if (a.kind === "time") return refuse({ code: "functionOfTime", name: "conj" });
  return a.kind === "exact" ? a : doubles(conjugate(a.value));
}

/** Of complex numbers too. */
export function functionOf(name: "abs" | "sin" | "cos", a: EnteredNumber): EnteredNumber {
  if (a.kind === "time") return refuse({ code: "functionOfTime", name });
  if (name === "abs") return a.kind === "exact" ? exact(absolute(a.value)) : doubles(complex(magnitude(a.value)));
  const { re, im } = complexOf(a);
  const value =
    name === "cos"
      ? complex(Math.cos(re) * Math.cosh(im), -Math.sin(re) * Math.sinh(im))
      : complex(Math.sin(re) * Math.cosh(im), Math.cos(re) * Math.sinh(im));
  return doubles(settled(value, 1));
}

function exact(value: Rational): EnteredNumber {
  const n = value.n < 0n ? -value.n : value.n;
  if (n > SIZE_LIMIT || value.d > SIZE_LIMIT) return refuse({ code: "numberTooLarge" });
  return { kind: "exact", value };
}

function doubles(value: Complex): EnteredNumber {
  if (!Number.isFinite(value.re) || !Number.isFinite(value.im)) return refuse({ code: "numberTooLarge" });
  return { kind: "complex", value };
}

function complexOf(a: Exclude<EnteredNumber, { kind: "time" }>): Complex {
  return a.kind === "exact" ? complex(toNumber(a.value)) : a.value;
}

function isNothing(a: Exclude<EnteredNumber, { kind: "time" }>): boolean {
  return a.kind === "exact" ? isZero(a.value) : a.value.re === 0 && a.value.im === 0;
}

function settled({ re, im }: Complex, scale: number): Complex {
  const settle = (part: number) => (Math.abs(part) <= ROUNDING * scale ? 0 : part);
  return complex(settle(re), settle(im));
}

function timeOf(a: EnteredNumber): TimeSum {
  return a.kind === "time" ? a.value : { constant: factorOf(a), waves: [] };
}

/** A real number beside a function of time. */
function factorOf(a: EnteredNumber): number {
  const value = asComplex(a);
  if (value === null) return refuse({ code: "timesTime" });
  return isReal(value) ? value.re : refuse({ code: "phasorAndTime" });
}

function addTimes(a: TimeSum, b: TimeSum): EnteredNumber {
  const waves = new Map<number, Wave>(a.waves.map((wave) => [wave.omega, wave]));
  for (const { omega, phasor } of b.waves) {
    const other = waves.get(omega)?.phasor ?? complex(0);
    const sum = settled(addComplex(other, phasor), magnitude(other) + magnitude(phasor));
    waves.set(omega, { omega, phasor: sum });
  }
  return finiteTime({ constant: a.constant + b.constant, waves: [...waves.values()] });
}

function scaledTime({ constant, waves }: TimeSum, factor: number): EnteredNumber {
  return finiteTime({
    constant: constant * factor,
    waves: waves.map(({ omega, phasor }) => ({ omega, phasor: multiplyComplex(phasor, complex(factor)) })),
  });
}

function finiteTime(value: TimeSum): EnteredNumber {
  const parts = [value.constant, ...value.waves.flatMap(({ phasor }) => [phasor.re, phasor.im])];
  return parts.every(Number.isFinite) ? { kind: "time", value } : refuse({ code: "numberTooLarge" });
}

/** The root of a square of a rational number; null for any other. */
function exactRoot(value: Rational): Rational | null {
  const [n, d] = [wholeRoot(value.n), wholeRoot(value.d)];
  return n === null || d === null ? null : rational(n, d);
}

function wholeRoot(n: bigint): bigint | null {
  if (n < 0n) return null;
  if (n < 2n) return n;
  // Newton's method from above, which falls until it is at the floor of the root.
  let root = 1n << BigInt(Math.ceil((n.toString(16).length * 4) / 2));
  for (;;) {
    const next = (root + n / root) >> 1n;
    if (next >= root) break;
    root = next;
  }
  return root * root === n ? root : null;
}
