import type { PartId, Problem } from "../circuit";
import { toNumber } from "../quantity";
import { magnitude } from "./complex";
import type { Solution } from "./solve";

/** Limits of extra-low voltage: IEC 61140, 50 V AC (rms) and 120 V DC. */
const AC_LIMIT = 50;
const DC_LIMIT = 120;

/** The parts with more than extra-low voltage across them, as one caution; none where all is below. */
export function beyondExtraLowVoltage(solution: Solution): Problem[] {
  const parts = new Set<PartId>();
  const { dc } = solution;
  if (dc !== null) {
    const sizeOf = (branch: number): number =>
      dc.numbers === "exact"
        ? Math.abs(toNumber(dc.total.branchVoltage(branch)))
        : magnitude(dc.total.branchVoltage(branch));
    dc.network.branches.forEach(({ part }, i) => {
      if (sizeOf(i) > DC_LIMIT) parts.add(part);
    });
  }
  // Effective values of several frequencies add as squares.
  const squares = new Map<PartId, number>();
  const factor = solution.measure === "rms" ? 1 : 0.5;
  for (const { network, total } of solution.sinusoids) {
    network.branches.forEach(({ part }, i) => {
      const size = magnitude(total.branchVoltage(i));
      squares.set(part, (squares.get(part) ?? 0) + factor * size ** 2);
    });
  }
  for (const [part, square] of squares) if (Math.sqrt(square) > AC_LIMIT * (1 + 1e-12)) parts.add(part);
  return parts.size > 0 ? [{ code: "beyondExtraLowVoltage", parts: [...parts] }] : [];
}
