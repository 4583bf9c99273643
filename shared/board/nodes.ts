import type { NodeId } from "../circuit";
import { nodeId } from "../circuit/part";
import type { Board, BoardWire } from "./board";
import { endsOf, type Joins, joinPoints } from "./joins";
import { inReadingOrder, type Point } from "./point";
import type { BoardProblem } from "./problem";
import { terminalPoints } from "./terminals";

/** The nodes of a drawing. */
export type BoardNodes = {
  /** The node at a grid point: at a terminal, a wire's end or anywhere on a wire; null where no part is joined. */
  readonly nodeAt: (point: Point) => NodeId | null;
  readonly reference: NodeId | null;
  readonly problems: readonly BoardProblem[];
};

/**
 * Finds the nodes of a board. `branchWires` are the wires that count as parts and so do not join their ends.
 *
 * Names come from the drawing alone, never from ids, so every board with this drawing names its nodes alike: the name
 * that somebody gave; else "0" for the reference node; else a, b, c … in the order in which a page is read, by each
 * node's first point. All reference symbols mark the same node.
 */
export function findNodes(board: Board, branchWires: readonly BoardWire[]): BoardNodes {
  const terminals = [...board.parts.flatMap(terminalPoints), ...branchWires.flatMap((wire) => endsOf(wire.points))];
  const marks = [...board.references, ...board.nodeNames].map((mark) => mark.at);
  const joining = board.wires.filter((wire) => !branchWires.includes(wire)).map((wire) => wire.points);
  const joins = joinPoints(joining, [...terminals, ...marks]);
  const nodeOfGroup = mergeReferences(board, joins, terminals);
  const problems = strayMarks(board, joins, nodeOfGroup);
  const names = nameNodes(board, joins, nodeOfGroup, problems);
  const nodeAt = (point: Point) => {
    const group = joins.groupAt(point);
    const node = group === null ? undefined : nodeOfGroup.get(group);
    return node === undefined ? null : (names.get(node) ?? null);
  };
  const reference = board.references.map((symbol) => nodeAt(symbol.at)).find((node) => node !== null) ?? null;
  return { nodeAt, reference, problems };
}

/** The groups that hold a terminal, each with its node: a group number, one for all groups with a reference symbol. */
function mergeReferences(board: Board, joins: Joins, terminals: readonly Point[]): ReadonlyMap<number, number> {
  const live = new Set(terminals.map((point) => joins.groupAt(point)));
  const grounded = new Set(board.references.map((symbol) => joins.groupAt(symbol.at)));
  const first = joins.groups.findIndex((_, group) => live.has(group) && grounded.has(group));
  const nodes = joins.groups.map((_, group) => [group, grounded.has(group) ? first : group] as const);
  return new Map(nodes.filter(([group]) => live.has(group)));
}

function strayMarks(board: Board, joins: Joins, nodeOfGroup: ReadonlyMap<number, number>): BoardProblem[] {
  const isStray = (mark: { readonly at: Point }) => !nodeOfGroup.has(joins.groupAt(mark.at) ?? -1);
  return [
    ...board.references
      .filter(isStray)
      .map((symbol): BoardProblem => ({ code: "referenceOffCircuit", entry: symbol.id })),
    ...board.nodeNames
      .filter(isStray)
      .map((label): BoardProblem => ({ code: "nodeNameOffCircuit", entry: label.id, name: label.name })),
  ];
}

function nameNodes(
  board: Board,
  joins: Joins,
  nodeOfGroup: ReadonlyMap<number, number>,
  problems: BoardProblem[],
): ReadonlyMap<number, NodeId> {
  const names = givenNames(board, joins, nodeOfGroup, problems);
  const taken = new Set<string>(names.values());
  const grounded = board.references.map((symbol) => nodeOfGroup.get(joins.groupAt(symbol.at) ?? -1));
  const first = grounded.find((node) => node !== undefined);
  if (first !== undefined && !names.has(first)) names.set(first, nodeId(free(taken, "0", (n) => `0${"′".repeat(n)}`)));
  for (const node of inDrawnOrder(joins, nodeOfGroup)) {
    if (names.has(node)) continue;
    const name = free(taken, "a", letters);
    taken.add(name);
    names.set(node, nodeId(name));
  }
  return names;
}

function givenNames(
  board: Board,
  joins: Joins,
  nodeOfGroup: ReadonlyMap<number, number>,
  problems: BoardProblem[],
): Map<number, NodeId> {
  const names = new Map<number, NodeId>();
  for (const { id, at, name } of board.nodeNames) {
    const node = nodeOfGroup.get(joins.groupAt(at) ?? -1);
    if (node === undefined || names.get(node) === name) continue;
    const isTaken = names.has(node) || [...names.values()].some((other) => other === name);
    if (isTaken) problems.push({ code: "nodeNameTaken", entry: id, name });
    else names.set(node, nodeId(name));
  }
  return names;
}

/** Nodes ordered by the first of their points in reading order. */
function inDrawnOrder(joins: Joins, nodeOfGroup: ReadonlyMap<number, number>): readonly number[] {
  const first = new Map<number, Point>();
  joins.groups.forEach((points, group) => {
    const node = nodeOfGroup.get(group);
    if (node === undefined) return;
    for (const point of points) {
      const best = first.get(node);
      if (!best || inReadingOrder(point, best) < 0) first.set(node, point);
    }
  });
  return [...first.entries()].sort((a, b) => inReadingOrder(a[1], b[1])).map(([node]) => node);
}

function free(taken: ReadonlySet<string>, first: string, nth: (n: number) => string): string {
  let [name, n] = [first, 0];
  while (taken.has(name)) {
    n += 1;
    name = nth(n);
  }
  return name;
}

/** 0 → a, 25 → z, 26 → aa, 27 → ab … */
function letters(n: number): string {
  const last = String.fromCharCode(97 + (n % 26));
  return n < 26 ? last : letters(Math.floor(n / 26) - 1) + last;
}
