import { PointIndex, WireIndex } from "./lineIndex";
import { isOnSegment, type Point, pointText, segmentsOf } from "./point";

/** Points that conduct into one another, found from the geometry alone. */
export type Joins = {
  /** Number of the group a point belongs to: a join point's own, or that of the wire it lies on; null in the open. */
  readonly groupAt: (point: Point) => number | null;
  /** The join points of each group. */
  readonly groups: readonly (readonly Point[])[];
};

/**
 * Joins wires and terminals into groups. A join point is a wire's end or an anchor (a terminal, a reference symbol);
 * a wire joins every join point that lies anywhere on it, and join points at one place are one. Wires that merely
 * cross, or bend where another bends, stay apart.
 */
export function joinPoints(wires: readonly (readonly Point[])[], anchors: readonly Point[]): Joins {
  const points = uniquePoints([...anchors, ...wires.flatMap(endsOf)]);
  const indexAt = new Map(points.map((point, i) => [pointText(point), i]));
  const parent = points.map((_, i) => i);
  const index = new PointIndex(points);
  const wireRoots = wires.map((wire) => {
    const on = index.on(wire);
    const first = on[0] as number; // a wire's own ends are join points, so there is one
    for (const i of on) parent[rootOf(parent, i)] = rootOf(parent, first);
    return first;
  });
  const numbers = groupNumbers(parent);
  const wiresAt = new WireIndex(wires);
  return {
    groups: groupsOf(points, parent, numbers),
    groupAt: (point) => {
      const own = indexAt.get(pointText(point)) ?? wireRoots[wiresAt.at(point)[0] ?? -1];
      return own === undefined ? null : (numbers.get(rootOf(parent, own)) ?? null);
    },
  };
}

export function isOnWire(point: Point, wire: readonly Point[]): boolean {
  return segmentsOf(wire).some(([a, b]) => isOnSegment(point, a, b));
}

/** The first and last points of a polyline. */
export function endsOf(wire: readonly Point[]): readonly Point[] {
  const [first, last] = [wire[0], wire[wire.length - 1]];
  return first && last ? [first, last] : [];
}

function uniquePoints(points: readonly Point[]): readonly Point[] {
  return [...new Map(points.map((point) => [pointText(point), point])).values()];
}

// parent[i]: a join point that i is joined to; a root is its own parent.
function rootOf(parent: number[], i: number): number {
  let root = i;
  while (parent[root] !== root) root = parent[root] as number;
  parent[i] = root;
  return root;
}

/** The number of each group by its root, in the order of the roots. */
function groupNumbers(parent: readonly number[]): ReadonlyMap<number, number> {
  const roots = parent.flatMap((above, i) => (above === i ? [i] : []));
  return new Map(roots.map((root, number) => [root, number]));
}

function groupsOf(
  points: readonly Point[],
  parent: number[],
  numbers: ReadonlyMap<number, number>,
): readonly (readonly Point[])[] {
  const groups: Point[][] = Array.from({ length: numbers.size }, () => []);
  points.forEach((point, i) => {
    groups[numbers.get(rootOf(parent, i)) ?? 0]?.push(point);
  });
  return groups;
}
