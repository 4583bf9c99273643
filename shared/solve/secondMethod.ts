import type { Circuit, PartId, Wanted } from "../circuit";
import { equal, type UnitSymbol } from "../quantity";
import { type Amount, amountOf, type Constant, numberOf, powerOf } from "./amount";
import { type Complex, complex, magnitude } from "./complex";
import type { Response } from "./equations";
import { type LoopSolution, solveByLoops } from "./loops";
import type { Branch, Network } from "./network";
import { shortedCircuit } from "./ports";
import { type Port, type Solution, type SolvedSet, solveCircuit } from "./solve";
import { branchIndex, nodeIndex } from "./superposition";

/** Doubles of two methods agree to this share of the larger. */
const AGREEMENT = 1e-9;

/** The total of a wanted quantity by loop analysis with all sources acting; null where the method does not apply. */
export function totalByLoops(solution: Solution, wanted: Wanted): Amount | null {
  if (!solution.isSolved) return null;
  switch (wanted.kind) {
    case "current":
      return readLoops(solution, (set, loops) => {
        const current = loops.branchCurrents[branchIndex(set.network, wanted.through, wanted.winding)];
        if (current === undefined) return null;
        return wanted.direction === "forward" ? current : set.arithmetic.negate(current);
      });
    case "voltage":
    case "open-circuit-voltage":
    case "thevenin":
      return readLoops(solution, (set, loops) => between(set, loops, wanted));
    case "power":
      return powerByLoops(solution, wanted.of);
    case "short-circuit-current":
    case "norton":
      return shortByLoops(solution.circuit, wanted);
    case "resistance":
    case "impedance":
      return resistanceByLoops(solution, wanted);
    case "maximum-power-load":
      // The matched load is the port's resistance, or the conjugate of its impedance.
      return conjugated(resistanceByLoops(solution, wanted));
  }
}

type Reading = <T>(set: SolvedSet<T>, loops: LoopSolution<T>) => T | null;

function between<T>(set: SolvedSet<T>, loops: LoopSolution<T>, { from, to }: Port): T | null {
  const [a, b] = [nodeIndex(set.network, from), nodeIndex(set.network, to)];
  return a < 0 || b < 0 ? null : loops.voltageBetween(a, b);
}

/** Reads the loop solution of every set; null as soon as one of them has none. */
function readLoops(
  solution: Solution,
  reading: Reading,
  extend: <T>(set: SolvedSet<T>) => { network: Network<T>; values: readonly T[] } = (set) => set,
): Amount | null {
  let isComplete = true;
  const amount = amountOf(solution, <T>(set: SolvedSet<T>): T => {
    const { network, values } = extend(set);
    const loops = solveByLoops(network, set.arithmetic, values);
    const value = loops && reading(set, loops);
    if (value === null) isComplete = false;
    return value ?? set.arithmetic.zero;
  });
  return isComplete ? amount : null;
}

function powerByLoops(solution: Solution, part: PartId): Amount | null {
  let isComplete = true;
  const amount = powerOf(solution, part, <T>(set: SolvedSet<T>): Response<T> => {
    const loops = solveByLoops(set.network, set.arithmetic, set.values);
    const found = (value: T | null | undefined): T => {
      if (value === null || value === undefined) isComplete = false;
      return value ?? set.arithmetic.zero;
    };
    return {
      nodeVoltage: () => set.arithmetic.zero,
      branchVoltage: (branch) => {
        const { plus, minus } = set.network.branches[branch] as Branch<T>;
        return found(loops?.voltageBetween(plus, minus));
      },
      branchCurrent: (branch) => found(loops?.branchCurrents[branch]),
    };
  });
  return isComplete ? amount : null;
}

function shortByLoops(circuit: Circuit, port: Port): Amount | null {
  const { shorted, current } = shortedCircuit(circuit, port);
  return totalByLoops(solveCircuit(shorted), { ...current, name: null });
}

/** Independent sources zeroed and 1 A driven into the port: its voltage is its resistance. */
function resistanceByLoops(solution: Solution, ends: Port): Amount | null {
  return readLoops(
    solution,
    (set, loops) => between(set, loops, ends),
    <T>({ network, arithmetic, values }: SolvedSet<T>) => {
      const [from, to] = [nodeIndex(network, ends.from), nodeIndex(network, ends.to)];
      const source = network.sources.length;
      const test: Branch<T> = {
        part: "test" as PartId,
        winding: "primary",
        plus: to,
        minus: from,
        law: { kind: "current", source },
      };
      return {
        network: { ...network, branches: [...network.branches, test], sources: [...network.sources, test.part] },
        values: [...values.map(() => arithmetic.zero), arithmetic.one],
      };
    },
  );
}

function conjugated(amount: Amount | null): Amount | null {
  if (amount === null) return null;
  const phasors = amount.phasors.map((term) => ({ ...term, value: { re: term.value.re, im: -term.value.im } }));
  return { ...amount, phasors };
}

/**
 * Whether two amounts of a solution are the same: exactly for exact constants; for doubles to a share of the larger,
 * and in any case where they differ by no more than rounding can make of a 0.
 */
export function agree(solution: Solution, a: Amount, b: Amount, unit: UnitSymbol): boolean {
  const limit = roundingOf(solution, unit);
  return (
    constantsAgree(a.constant, b.constant, limit) &&
    a.phasors.every((term, i) => {
      const other = b.phasors[i];
      return other !== undefined && isNear(term.value, other.value, limit);
    })
  );
}

function constantsAgree(a: Constant | null, b: Constant | null, limit: number): boolean {
  if (a === null || b === null) return a === b;
  if (a.numbers === "exact" && b.numbers === "exact") return equal(a.value, b.value);
  return isNear(complex(numberOf(a)), complex(numberOf(b)), limit);
}

function isNear(a: Complex, b: Complex, limit: number): boolean {
  const share = AGREEMENT * Math.max(magnitude(a), magnitude(b));
  return magnitude({ re: a.re - b.re, im: a.im - b.im }) <= Math.max(share, limit);
}

/** Share of the largest numbers at work that rounding may leave of a 0. */
const ROUNDING = 1e-12;

/**
 * What rounding may leave of a 0: the two methods multiply all currents by all impedances, also where what comes of it
 * is 0, so the largest product says it.
 */
function roundingOf({ dc, sinusoids }: Solution, unit: UnitSymbol): number {
  const size = { voltage: 0, current: 0, least: Number.POSITIVE_INFINITY, most: 0 };
  for (const { arithmetic, network, total } of dc?.numbers === "doubles" ? [dc, ...sinusoids] : sinusoids) {
    network.branches.forEach(({ law }, i) => {
      size.voltage = Math.max(size.voltage, magnitude(total.branchVoltage(i)));
      size.current = Math.max(size.current, magnitude(total.branchCurrent(i)));
      if (law.kind !== "admittance") return;
      size.least = Math.min(size.least, arithmetic.size(law.impedance));
      size.most = Math.max(size.most, arithmetic.size(law.impedance));
    });
  }
  const voltage = Math.max(size.voltage, size.current * size.most);
  const current = Math.max(size.current, size.voltage / size.least);
  const scales: Partial<Record<UnitSymbol, number>> = { V: voltage, A: current, W: voltage * current, Ω: size.most };
  return ROUNDING * (scales[unit] ?? 0);
}
