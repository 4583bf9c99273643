import type { BranchIndex, NodeIndex } from "../solve/network";
import type { Acting } from "./acting";
import type { Port } from "./ports";

/**
 * Impedance of a piece from the branches that it is made of, by the solver. Series and parallel rules have no part in it,
 * so that it can stand against what they give.
 */
export function impedanceFromParts<T>(acting: Acting<T>, port: Port): T {
  return impedanceBetween(acting, port.parts, port.own.from, port.own.to);
}

/** Impedance between two nodes of some branches alone: the voltage that 1 A driven through them makes. */
export function impedanceBetween<T>(
  acting: Acting<T>,
  branches: readonly BranchIndex[],
  from: NodeIndex,
  to: NodeIndex,
): T {
  const { one } = acting.set.arithmetic;
  const voltages = voltagesIn(acting, branches, new Map([[to, null]]), new Map([[from, one]]));
  return voltages(from);
}

/**
 * The impedance of a lone branch between two nodes that would carry there what some branches alone do where a third node
 * is tied to the second: the reciprocal of the current out of the second with 1 V at the first.
 */
export function transferImpedance<T>(
  acting: Acting<T>,
  branches: readonly BranchIndex[],
  from: NodeIndex,
  to: NodeIndex,
  third: NodeIndex,
): T {
  const { add, divide, multiply, one, zero } = acting.set.arithmetic;
  const held = new Map<NodeIndex, T | null>([
    [from, one],
    [to, null],
    [third, null],
  ]);
  const voltages = voltagesIn(acting, branches, held, new Map());
  const current = branches.reduce((sum, i) => {
    const ends = branchEnds(acting, i);
    if (!ends.includes(to)) return sum;
    return add(sum, multiply(admittanceOf(acting, i), voltages(ends[0] === to ? ends[1] : ends[0])));
  }, zero);
  return divide(one, current);
}

function admittanceOf<T>({ laws }: Acting<T>, i: BranchIndex): T {
  const law = laws[i];
  if (law?.kind !== "admittance") throw new Error("admittanceOf: a piece holds impedances only");
  return law.admittance;
}

/** Node voltages of some branches alone: `held` has the nodes whose voltage is given (null for 0), `driven` currents in A. */
function voltagesIn<T>(
  acting: Acting<T>,
  branches: readonly BranchIndex[],
  held: ReadonlyMap<NodeIndex, T | null>,
  driven: ReadonlyMap<NodeIndex, T>,
): (node: NodeIndex) => T {
  const { arithmetic } = acting.set;
  const { add, multiply, negate, zero } = arithmetic;
  const nodes = [...new Set(branches.flatMap((i) => branchEnds(acting, i)))];
  const free = nodes.filter((node) => !held.has(node));
  const column = new Map(free.map((node, i) => [node, i]));
  const rows = free.map((): [number, T][] => []);
  const side = new Map(free.map((node, i) => [i, driven.get(node) ?? zero]));
  for (const i of branches) {
    const admittance = admittanceOf(acting, i);
    const [a, b] = branchEnds(acting, i);
    for (const [near, far] of [
      [a, b],
      [b, a],
    ] as const) {
      const row = column.get(near);
      if (row === undefined) continue;
      rows[row]?.push([row, admittance]);
      const other = column.get(far);
      const given = held.get(far);
      if (other !== undefined) rows[row]?.push([other, negate(admittance)]);
      else if (given) side.set(row, add(side.get(row) ?? zero, multiply(admittance, given)));
    }
  }
  const elimination = arithmetic.solve({ order: free.length, rows, rightHandSides: [side] });
  if (!elimination.ok) throw new Error("voltagesIn: the branches are not connected");
  return (node) => {
    const at = column.get(node);
    return at === undefined ? (held.get(node) ?? zero) : elimination.solution(0, [[at, arithmetic.one]]);
  };
}

function branchEnds<T>({ set, joined }: Acting<T>, i: BranchIndex): readonly [NodeIndex, NodeIndex] {
  const branch = set.network.branches[i];
  if (branch === undefined) throw new Error(`branchEnds: no branch ${i}`);
  return [joined(branch.plus), joined(branch.minus)];
}

/** Impedance of a piece in which images of other pieces stand: these are taken for what they are images of. */
export function pieceImpedance<T>(acting: Acting<T>, port: Port): T {
  const { add, divide, one } = acting.set.arithmetic;
  const { make, original } = port;
  if (original !== null) return pieceImpedance(acting, original);
  if (make.kind === "branch" || (port.image === "none" && make.of.every(isPlain)))
    return impedanceFromParts(acting, port);
  const each = make.of.map((inner) => pieceImpedance(acting, inner));
  if (make.kind === "series") return each.reduce(add);
  return divide(one, each.map((impedance) => divide(one, impedance)).reduce(add));
}

function isPlain(port: Port): boolean {
  return port.image === "none" && (port.make.kind === "branch" || port.make.of.every(isPlain));
}

/** Below this share of its terms a sum of doubles is what rounding left of a 0. */
const ROUNDING = 1e-12;

/** Whether no row of a piece adds up to 0 Ω and no block to 0 S, as at a resonance: only then do the rules divide by it. */
export function isRegular<T>(acting: Acting<T>, port: Port): boolean {
  return regularImpedance(acting, port) !== null;
}

function regularImpedance<T>(acting: Acting<T>, port: Port): T | null {
  const { divide, one } = acting.set.arithmetic;
  const { make } = port;
  if (make.kind === "branch") return impedanceFromParts(acting, port);
  const each = make.of.map((inner) => regularImpedance(acting, inner));
  const values = each.flatMap((value) => (value === null ? [] : [value]));
  if (values.length < each.length) return null;
  if (make.kind === "series") return regularSum(acting, values);
  const admittance = regularSum(
    acting,
    values.map((value) => divide(one, value)),
  );
  return admittance === null ? null : divide(one, admittance);
}

/** The sum of some numbers; null where it is 0 to rounding. */
export function regularSum<T>({ set }: Acting<T>, values: readonly T[]): T | null {
  const { add, size, zero } = set.arithmetic;
  const total = values.reduce(add, zero);
  const largest = Math.max(...values.map(size));
  return size(total) <= ROUNDING * largest ? null : total;
}
