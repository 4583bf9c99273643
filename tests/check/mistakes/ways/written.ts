import { type Complex, degreesOf, sizeOf } from "./complexNumber";
import { onlyOf, type Question, type Value } from "./question";

/** How a learner writes a value down: so many figures, as a number, a phasor or a function of time. */
export type Hand = { readonly figures: number; readonly form: "number" | "phasor" | "time" };

const PREFIXES: readonly (readonly [string, number])[] = [
  ["G", 1e9],
  ["M", 1e6],
  ["k", 1e3],
  ["", 1],
  ["m", 1e-3],
  ["µ", 1e-6],
  ["n", 1e-9],
  ["p", 1e-12],
];

export function unitOf({ asked }: Question): string {
  switch (asked.quantity) {
    case "current":
      return "A";
    case "power":
      return "W";
    case "resistance":
    case "impedance":
      return "Ω";
    default:
      return "V";
  }
}

/** A value as a learner enters it, rounded and with its unit. */
export function written(value: Value, unit: string, { figures, form }: Hand): string {
  switch (form) {
    case "number":
      return withPrefix(onlyOf(value).re, unit, figures);
    case "phasor":
      return phasorText(onlyOf(value), unit, figures);
    case "time":
      return [...value].map(([omega, x]) => waveText(omega, x, unit, figures)).join(" + ");
  }
}

/** A phasor in polar form; its angle has as many decimals as its size has figures after the first two. */
function phasorText(x: Complex, unit: string, figures: number): string {
  const [size, tail] = split(sizeOf(x), unit, figures);
  return `${size}∠${degreesOf(x).toFixed(figures - 2)}° ${tail}`;
}

function waveText(omega: number, x: Complex, unit: string, figures: number): string {
  if (omega === 0) return withPrefix(x.re, unit, figures);
  const [size, tail] = split(sizeOf(x), unit, figures);
  const degrees = degreesOf(x);
  const phase = `${degrees < 0 ? "-" : "+"} ${Math.abs(degrees).toFixed(figures - 2)}°`;
  return `${size} cos(${rounded(omega, Math.max(figures, 4))} t ${phase}) ${tail}`;
}

function withPrefix(x: number, unit: string, figures: number): string {
  return split(x, unit, figures).join(" ");
}

/** A number between 1 and 1000 where there is a prefix for it, and its unit. */
function split(x: number, unit: string, figures: number): [string, string] {
  if (x === 0) return ["0", unit];
  const size = Math.abs(Number(x.toPrecision(figures)));
  const [prefix, factor] = PREFIXES.find(([, each]) => size >= each) ?? ["p", 1e-12];
  return [rounded(x / factor, figures), `${prefix}${unit}`];
}

/** Without an exponent, as people write it. */
function rounded(x: number, figures: number): string {
  const text = x.toPrecision(figures);
  return text.includes("e") || Number.isInteger(x) ? String(Number(text)) : text;
}
