import { type Circuit, type Drawing, type Placement, type Point, terminalsOf } from "../../shared/circuit";

// The rules of a drawing, written without the layout: what touches is joined, what merely crosses is not.

export type Segment = readonly [Point, Point];

const key = ([x, y]: Point) => `${x},${y}`;

export function segmentsOf(wire: readonly Point[]): readonly Segment[] {
  return wire.slice(1).map((end, i): Segment => [wire[i] as Point, end]);
}

export function isOn([x, y]: Point, [[x1, y1], [x2, y2]]: Segment): boolean {
  const isBetween = (value: number, a: number, b: number) => Math.min(a, b) <= value && value <= Math.max(a, b);
  return isBetween(x, x1, x2) && isBetween(y, y1, y2);
}

/** Offsets of an op amp's (in+, in−, out) and a transformer's terminals from their centre, not turned. */
const BODY_TERMINALS: Readonly<Record<number, readonly Point[]>> = {
  3: [
    [-2, 1],
    [-2, -1],
    [2, 0],
  ],
  4: [
    [-2, -1],
    [-2, 1],
    [2, -1],
    [2, 1],
  ],
};

/** Where the terminals stand, in the order in which a file lists the nodes. */
export function terminalPoints(placement: Placement, count: number): readonly Point[] {
  if (placement.shape === "line") return [placement.from, placement.to];
  const { at, turn, flip } = placement;
  return (BODY_TERMINALS[count] ?? []).map(([dx, dy]) => {
    let offset: Point = [dx, flip ? -dy : dy];
    // A quarter turn clockwise, with y down: (x, y) → (−y, x).
    for (let quarter = 0; quarter < turn / 90; quarter++) offset = [-offset[1], offset[0]];
    return [at[0] + offset[0], at[1] + offset[1]];
  });
}

/** The set of points joined to each point, by the drawing alone; named by one point of the set. */
export function joinedPoints(
  wires: readonly (readonly Point[])[],
  terminals: readonly Point[],
): (point: Point) => string {
  const parent = new Map<string, string>();
  const find = (name: string): string => {
    let root = name;
    for (let up = parent.get(root); up !== undefined && up !== root; up = parent.get(root)) root = up;
    parent.set(name, root);
    return root;
  };
  const points = [...wires.flatMap((wire) => [wire[0] as Point, wire.at(-1) as Point]), ...terminals];
  for (const wire of wires) {
    const home = key(wire[0] as Point);
    for (const segment of segmentsOf(wire)) {
      for (const point of points) if (isOn(point, segment)) parent.set(find(key(point)), find(home));
    }
  }
  return (point) => find(key(point));
}

export type PlacedTerminal = { readonly part: string; readonly node: string; readonly at: Point };

export function placedTerminals(circuit: Circuit, drawing: Drawing): readonly PlacedTerminal[] {
  const placements = new Map(drawing.placements.map((placement) => [placement.part, placement]));
  return circuit.parts.flatMap((part) => {
    const placement = placements.get(part.id);
    if (!placement) throw new Error(`${part.id} is not drawn`);
    const terminals = terminalsOf(part);
    const points = terminalPoints(placement, terminals.length);
    return terminals.map(({ node }, i) => ({ part: part.id, node, at: points[i] as Point }));
  });
}

/** Every way in which what the geometry joins differs from what the circuit joins. */
export function joinFaults(circuit: Circuit, drawing: Drawing): readonly string[] {
  const terminals = placedTerminals(circuit, drawing);
  const setOf = joinedPoints(
    drawing.wires,
    terminals.map(({ at }) => at),
  );
  const setByNode = new Map<string, string>();
  const nodeBySet = new Map<string, string>();
  return terminals.flatMap(({ part, node, at }) => {
    const set = setOf(at);
    const [known, other] = [setByNode.get(node) ?? set, nodeBySet.get(set) ?? node];
    setByNode.set(node, known);
    nodeBySet.set(set, other);
    return [
      ...(known === set ? [] : [`${part} at ${key(at)} is not joined to node ${node}`]),
      ...(other === node ? [] : [`${part} at ${key(at)} of node ${node} is joined to node ${other}`]),
    ];
  });
}
