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

/** The largest voltage, current and impedance of a set, against which doubles are compared. */
function largestOf(set: SolvedSet<Complex>): (unit: UnitSymbol) => number {
  const { network, arithmetic, total } = set;
  const sizes: Partial<Record<UnitSymbol, number>> = {};
  const raise = (unit: UnitSymbol, size: number): void => {
    sizes[unit] = Math.max(sizes[unit] ?? 0, size);
  };
  network.branches.forEach(({ law }, i) => {
    raise("V", arithmetic.size(total.branchVoltage(i)));
    raise("A", arithmetic.size(total.branchCurrent(i)));
    if (law.kind !== "admittance") return;
    raise("Ω", arithmetic.size(law.impedance));
    raise("S", arithmetic.size(law.admittance));
  });
  raise("W", (sizes.V ?? 0) * (sizes.A ?? 0));
  return (unit) => sizes[unit] ?? 1;
}
