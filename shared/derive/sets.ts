import type { UnitSymbol } from "../quantity";
import type { Complex, Solution, SolvedSet } from "../solve";
import { onConstant } from "../solve/amount";
import { doubleNumerals, exactNumerals, type Numerals } from "./numerals";

/** Something done to a solved set whatever numbers it is in. */
export type OnSet<R> = <T>(set: SolvedSet<T>, numerals: Numerals<T>) => R;

/** Goes over the constant set, then those of the sinusoids, in which one of the sources acts; all of them for null. */
export function onSets<R>(solution: Solution, sources: readonly string[] | null, digits: number, visit: OnSet<R>): R[] {
  const { dc, sinusoids, measure } = solution;
  const isReached = <T>({ network }: SolvedSet<T>): boolean =>
    sources === null || network.sources.some((id) => sources.includes(id));
  const results: R[] = [];
  if (dc !== null && onConstant(dc, isReached)) {
    results.push(
      dc.numbers === "exact"
        ? visit(dc, exactNumerals(digits))
        : visit(dc, doubleNumerals(digits, { largest: largestOf(dc), measure: "peak", omega: null })),
    );
  }
  for (const set of sinusoids) {
    if (!isReached(set)) continue;
    const { omega } = set.stimulus;
    results.push(visit(set, doubleNumerals(digits, { largest: largestOf(set), measure, omega })));
  }
  return results;
}

/**
 * The largest voltage, current and impedance of a set, against which doubles are compared: what is at work in it, sources
 * and the products of currents and impedances included, since sums that cancel to 0 are made of these.
 */
function largestOf(set: SolvedSet<Complex>): (unit: UnitSymbol) => number {
  const { network, arithmetic, total, values } = set;
  const size = { voltage: 0, current: 0, least: Number.POSITIVE_INFINITY, most: 0 };
  network.branches.forEach(({ law }, i) => {
    size.voltage = Math.max(size.voltage, arithmetic.size(total.branchVoltage(i)));
    size.current = Math.max(size.current, arithmetic.size(total.branchCurrent(i)));
    const source = law.kind === "voltage" || law.kind === "current" ? law.source : null;
    const own = source === null ? 0 : arithmetic.size(values[source] as Complex);
    if (law.kind === "voltage") size.voltage = Math.max(size.voltage, own);
    if (law.kind === "current") size.current = Math.max(size.current, own);
    if (law.kind !== "admittance") return;
    size.least = Math.min(size.least, arithmetic.size(law.impedance));
    size.most = Math.max(size.most, arithmetic.size(law.impedance));
  });
  const voltage = Math.max(size.voltage, size.current * size.most);
  const current = Math.max(size.current, size.voltage / size.least);
  const scales: Partial<Record<UnitSymbol, number>> = {
    V: voltage,
    A: current,
    W: voltage * current,
    Ω: size.most,
    S: 1 / size.least,
  };
  return (unit) => scales[unit] ?? 1;
}
