import { describe, expect, it } from "vitest";
import { type Working, workingsOf } from "../../shared/derive";
import { EXAMPLES } from "../../shared/examples";
import { circuitOf } from "../solve/solved";

/**
 * Lines that a person writes for the first wanted quantity of each example, the way shared/examples/README.md works it:
 * a zeroing, a combination, a division, an equation set up, a set of equations solved, a change of sign and a sum each
 * count one. Addends in the order of the sources, then the total.
 */
const BY_HAND: Readonly<Record<string, { readonly lines: number; readonly reason: string }>> = {
  "three-sources": {
    lines: 16,
    reason: "V1: zero, R4∥R5, R1∥R2, 12 V by division, Ohm. I1: zero, two blocks, 4 V, Ohm. V2: as V1. Sum.",
  },
  "solar-trickle-charger": { lines: 8, reason: "V1: zero, R2∥R3, Ohm, division. V2: zero, R1∥R3, Ohm. Sum." },
  "tank-level-sensor": { lines: 6, reason: "I1: zero, division. I2: zero, division, sign. Sum." },
  "door-loop-bridge": {
    lines: 11,
    reason: "V1: zero, two divisions, difference. I1: zero, two blocks, two voltages, difference. Sum.",
  },
  "fan-controller": { lines: 11, reason: "Each: zero, c in terms of a, node equation, a, Vq. Sum." },
  "moisture-probe": { lines: 13, reason: "Each: zero, what i is, two node equations, solve, Ohm. Sum." },
  "line-mixer": { lines: 7, reason: "Each: zero, closed form. Sum." },
  "buzzer-filter": { lines: 9, reason: "V1: zero, admittances, their sum, 150 mA, Ohm. I1: zero, sum, Ohm. Sum." },
  "intercom-line": {
    lines: 12,
    reason: "V1: zero, C1 open, division. V2 and I1: zero, admittance of C1, R1 with R2, voltage. Sum in time.",
  },
  "bell-transformer": {
    lines: 10,
    reason: "V1: zero, 8 V referred, 2 Ω referred, R2∥R3, division. V2: zero, 2 Ω referred, block, division. Sum.",
  },
};

function linesOf({ addends, total }: Working): number {
  return addends.reduce((count, { derivation }) => count + derivation.lines.length, total.lines.length);
}

function median(numbers: readonly number[]): number {
  const sorted = [...numbers].sort((a, b) => a - b);
  const middle = sorted.length / 2;
  return ((sorted[Math.ceil(middle) - 1] ?? 0) + (sorted[Math.floor(middle)] ?? 0)) / 2;
}

describe("the ten examples", () => {
  const ours = EXAMPLES.map(({ id, json }) => ({
    id,
    lines: linesOf(workingsOf(circuitOf(json as never))[0] as Working),
  }));

  it("take no more lines than a person writes, by the median", () => {
    const byHand = ours.map(({ id }) => BY_HAND[id]?.lines ?? Number.NaN);
    expect(median(ours.map(({ lines }) => lines))).toBeLessThanOrEqual(median(byHand));
  });

  it.each(ours)("$id takes $lines lines, at most three more than by hand", ({ id, lines }) => {
    expect(lines).toBeLessThanOrEqual((BY_HAND[id]?.lines ?? 0) + 3);
  });
});
