import type { TimeTerm, UnitSymbol } from "../quantity";
import { rationalText, writeNumber, writePhasor, writeQuantity, writeTimeSum } from "../quantity";
import { type Amount, type Constant, NOTHING, numberOf, type PhasorTerm } from "./amount";
import { magnitude, phaseDegrees } from "./complex";
import type { PhasorShown, Shown } from "./report";
import type { Solution } from "./solve";

/** Doubles below this share of the largest of their kind in the circuit are what rounding left of a zero. */
const ROUNDING = 1e-12;

/** How amounts of one solution are written. */
export type Writer = (amount: Amount, unit: UnitSymbol) => Shown;

/**
 * A writer for a solution's amounts, to `digits` significant figures: plain numbers where all is constant, phasors
 * where a single frequency acts, and sums in time where several do.
 */
export function writerFor(solution: Solution, digits: number): Writer {
  const smallest = smallestOf(solution);
  const { measure } = solution;
  const isSinglePhasor = solution.dc === null && solution.sinusoids.length === 1;
  return (amount, unit) => {
    const limit = smallest(unit);
    const constant = amount.constant && settled(amount.constant, limit);
    const terms = amount.phasors.filter((term) => magnitude(term.value) > limit);
    const shown = amount.phasors.map((term) => phasorShown(term, terms.includes(term), measure));
    const dc = amount.constant === null ? [] : [constantShown(constant ?? NOTHING)];
    const phasors = shown.length === 0 ? [] : [...dc, ...shown];
    if (terms.length === 0) {
      const written = plain(constant ?? NOTHING, unit, digits);
      // A phasor of doubles that is taken for 0 makes no exact number of what is left.
      return shown.length === 0 ? { ...written, phasors } : { ...written, exact: null, mark: "≈", phasors };
    }
    const { text } = isSinglePhasor
      ? writePhasor(shown[0] as PhasorShown, polarUnit(unit), { digits })
      : severalTerms(constant, terms, unit, measure, digits);
    return { exact: null, decimal: null, phasors, text, mark: "≈" };
  };
}

/** A double that is only rounding becomes 0. */
function settled(constant: Constant, limit: number): Constant {
  return constant.numbers === "doubles" && Math.abs(constant.value) <= limit ? NOTHING : constant;
}

function plain(constant: Constant, unit: UnitSymbol, digits: number): Omit<Shown, "phasors"> {
  if (constant.numbers === "exact") {
    const written = writeQuantity(constant.value, unit, { digits });
    return { exact: rationalText(constant.value), decimal: numberOf(constant), ...written };
  }
  return { exact: null, decimal: constant.value, ...writeNumber(constant.value, unit, { digits }) };
}

function constantShown(constant: Constant): PhasorShown {
  const value = numberOf(constant);
  return { omega: 0, magnitude: Math.abs(value), phaseDegrees: value < 0 ? 180 : 0, measure: "peak" };
}

function phasorShown(term: PhasorTerm, isThere: boolean, measure: "peak" | "rms"): PhasorShown {
  if (!isThere) return { omega: term.omega, magnitude: 0, phaseDegrees: 0, measure };
  return { omega: term.omega, magnitude: magnitude(term.value), phaseDegrees: phaseDegrees(term.value), measure };
}

/** Sums in time for voltages and currents; impedances of several frequencies stand side by side, since they don't add. */
function severalTerms(
  constant: Constant | null,
  terms: readonly PhasorTerm[],
  unit: UnitSymbol,
  measure: "peak" | "rms",
  digits: number,
): { readonly text: string } {
  if (unit !== "V" && unit !== "A") {
    const each = terms.map((term) => {
      const { text } = writePhasor(phasorShown(term, true, "peak"), polarUnit(unit), { digits });
      if (terms.length === 1 && constant === null) return text;
      return `${text} at ${writeNumber(term.omega, "rad/s", { digits }).text}`;
    });
    const dc = constant === null ? [] : [`${plain(constant, unit, digits).text} at DC`];
    return { text: [...dc, ...each].join("; ") };
  }
  const peak = measure === "rms" ? Math.SQRT2 : 1;
  const inTime = terms.map(({ omega, frequency, value }): TimeTerm => {
    return { omega, frequency, magnitude: magnitude(value) * peak, phaseDegrees: phaseDegrees(value) };
  });
  const first = constant === null ? [] : [constantShown(constant)];
  return writeTimeSum([...first, ...inTime], unit, { digits });
}

function polarUnit(unit: UnitSymbol): "V" | "A" | "Ω" | "S" | "1" {
  if (unit === "V" || unit === "A" || unit === "Ω" || unit === "S" || unit === "1") return unit;
  throw new Error(`polarUnit: no phasor is counted in ${unit}`);
}

/** For each unit the size below which a double of this solution counts as 0. */
function smallestOf(solution: Solution): (unit: UnitSymbol) => number {
  let voltage = 0;
  let current = 0;
  const inDoubles = solution.dc?.numbers === "doubles" ? [solution.dc, ...solution.sinusoids] : solution.sinusoids;
  for (const { network, total } of inDoubles) {
    for (let branch = 0; branch < network.branches.length; branch++) {
      voltage = Math.max(voltage, magnitude(total.branchVoltage(branch)));
      current = Math.max(current, magnitude(total.branchCurrent(branch)));
    }
  }
  const scales: Partial<Record<UnitSymbol, number>> = { V: voltage, A: current, W: voltage * current };
  return (unit) => ROUNDING * (scales[unit] ?? 0);
}
