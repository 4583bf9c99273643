import type { Circuit, PartId } from "../circuit";
import { isIndependentSource } from "../circuit";
import { type Shown, type Solution, solveCircuit } from "../solve";
import { type Amount, addConstants, amountOf, type Constant, NOTHING, powerOf } from "../solve/amount";
import { agree } from "../solve/secondMethod";
import { powerBalance } from "../solve/sheets";
import { writerFor } from "../solve/shown";
import { respondTo } from "../solve/superposition";

/** One part: its voltage and current from plus to minus, and whether it absorbs power or supplies it. */
export type PowerRow = {
  readonly part: string;
  readonly voltage: Shown;
  readonly current: Shown;
  readonly power: Shown;
  readonly does: "absorbs" | "supplies" | "neither";
  /** What it would absorb with each source alone, and their sum, which is not its power. Empty with fewer than two sources. */
  readonly alone: readonly { readonly source: string; readonly power: Shown }[];
  readonly sumOfAlone: Shown | null;
  readonly doesSumAgree: boolean | null;
};

/** Power of every part, the balance, and beside it what adding up powers of addends would give. Plain JSON. */
export type PowerTable = {
  readonly rows: readonly PowerRow[];
  readonly supplied: Shown;
  readonly absorbed: Shown;
  readonly difference: Shown;
};

/** The power table of a circuit, a transformer as one part; null without a solution. */
export function powerTableOf(circuit: Circuit, digits = 4): PowerTable | null {
  const solution = solveCircuit(circuit);
  const write = writerFor(solution, digits);
  const balance = powerBalance(solution, write);
  const any = solution.dc ?? solution.sinusoids[0];
  if (balance === null || any === undefined) return null;
  const sources = circuit.parts.filter(isIndependentSource).map(({ id }) => id);
  const rows = circuit.parts.map(({ id }): PowerRow => {
    const place = any.network.branches.findIndex((branch) => branch.part === id);
    const power = powerOf(solution, id, (set) => set.total);
    const alone = sources.map((source) => ({ source, amount: powerAlone(solution, id, source) }));
    const sum = alone.reduce<Constant>((total, { amount }) => addConstants(total, amount.constant ?? NOTHING), NOTHING);
    const sumAmount: Amount = { constant: sum, phasors: [] };
    const isSeveral = sources.length > 1;
    const shown = write(power, "W");
    const size = shown.decimal ?? 0;
    return {
      part: id,
      voltage: write(
        amountOf(solution, (set) => set.total.branchVoltage(place)),
        "V",
      ),
      current: write(
        amountOf(solution, (set) => set.total.branchCurrent(place)),
        "A",
      ),
      power: shown,
      does: shown.text === "0 W" ? "neither" : size > 0 ? "absorbs" : "supplies",
      alone: isSeveral ? alone.map(({ source, amount }) => ({ source, power: write(amount, "W") })) : [],
      sumOfAlone: isSeveral ? write(sumAmount, "W") : null,
      doesSumAgree: isSeveral ? agree(solution, sumAmount, power, "W") : null,
    };
  });
  return { rows, ...balance };
}

function powerAlone(solution: Solution, part: PartId, source: PartId): Amount {
  return powerOf(solution, part, (set) => respondTo(set, [source]));
}
