import type { BranchIndex, NodeIndex } from "../solve/network";
import type { Acting } from "./acting";
import type { Port } from "./ports";

/**
 * Impedance of a piece from the branches that it is made of, by the solver: 1 A driven through them alone. Series and
 * parallel rules have no part in it, so that it can stand against what they give.
 */
export function impedanceFromParts<T>(acting: Acting<T>, port: Port): T {
  const { arithmetic } = acting.set;
  const row = nodesOf(acting, port);
  const place = new Map(row.map((node, i) => [node, i]));
  const ground = place.get(port.own.to) as number;
  const start = port.own.from;
  const order = row.length - 1;
  const column = (node: NodeIndex): number => {
    const at = place.get(node) as number;
    return at === ground ? -1 : at > ground ? at - 1 : at;
  };
  const rows = Array.from({ length: order }, (): [number, T][] => []);
  for (const i of port.parts) {
    const law = acting.laws[i];
    if (law?.kind !== "admittance") throw new Error("impedanceFromParts: a piece holds impedances only");
    const [a, b] = branchEnds(acting, i).map(column) as [number, number];
    const less = arithmetic.negate(law.admittance);
    if (a >= 0) rows[a]?.push([a, law.admittance]);
    if (b >= 0) rows[b]?.push([b, law.admittance]);
    if (a >= 0 && b >= 0) {
      rows[a]?.push([b, less]);
      rows[b]?.push([a, less]);
    }
  }
  const elimination = arithmetic.solve({ order, rows, rightHandSides: [new Map([[column(start), arithmetic.one]])] });
  if (!elimination.ok) throw new Error("impedanceFromParts: the piece is not connected");
  return elimination.solution(0, [[column(start), arithmetic.one]]);
}

function branchEnds<T>({ set, joined }: Acting<T>, i: BranchIndex): readonly [NodeIndex, NodeIndex] {
  const branch = set.network.branches[i];
  if (branch === undefined) throw new Error(`branchEnds: no branch ${i}`);
  return [joined(branch.plus), joined(branch.minus)];
}

function nodesOf<T>(acting: Acting<T>, port: Port): NodeIndex[] {
  return [...new Set(port.parts.flatMap((i) => branchEnds(acting, i)))];
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

function regularSum<T>({ set }: Acting<T>, values: readonly T[]): T | null {
  const { add, size, zero } = set.arithmetic;
  const total = values.reduce(add, zero);
  const largest = Math.max(...values.map(size));
  return size(total) <= ROUNDING * largest ? null : total;
}
