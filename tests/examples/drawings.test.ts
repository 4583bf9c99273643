import { describe, expect, it } from "vitest";
import { type CircuitFile, fileProblemText, type Placement, type Point, readCircuitFile } from "../../shared/circuit";
import { EXAMPLES } from "../../shared/examples";

// The rules of a drawing, written here once more: what touches is joined, what merely crosses is not.

type Segment = readonly [Point, Point];
type Json = { readonly elements: readonly { readonly id: string; readonly nodes: readonly string[] }[] };

function fileOf(json: unknown): CircuitFile {
  const reading = readCircuitFile(json);
  if (!reading.ok) throw new Error(reading.problems.map(fileProblemText).join("\n"));
  return reading.value;
}

function drawingOf(file: CircuitFile) {
  if (file.drawing === null) throw new Error("not drawn");
  return file.drawing;
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
function terminalPoints(placement: Placement, count: number): readonly Point[] {
  if (placement.shape === "line") return [placement.from, placement.to];
  const { at, turn, flip } = placement;
  return (BODY_TERMINALS[count] ?? []).map(([dx, dy]) => {
    let offset: Point = [dx, flip ? -dy : dy];
    // A quarter turn clockwise, with y down: (x, y) → (−y, x).
    for (let quarter = 0; quarter < turn / 90; quarter++) offset = [-offset[1], offset[0]];
    return [at[0] + offset[0], at[1] + offset[1]];
  });
}

const key = ([x, y]: Point) => `${x},${y}`;

function isOn([x, y]: Point, [[x1, y1], [x2, y2]]: Segment): boolean {
  const isBetween = (value: number, a: number, b: number) => Math.min(a, b) <= value && value <= Math.max(a, b);
  return isBetween(x, x1, x2) && isBetween(y, y1, y2);
}

function segmentsOf(wire: readonly Point[]): readonly Segment[] {
  return wire.slice(1).map((end, i): Segment => [wire[i] as Point, end]);
}

/** The set of points joined to each point, by the drawing alone; named by one point of the set. */
function joinedPoints(wires: readonly (readonly Point[])[], terminals: readonly Point[]): (point: Point) => string {
  const parent = new Map<string, string>();
  const find = (name: string): string => {
    const up = parent.get(name) ?? name;
    return up === name ? name : find(up);
  };
  const ends = wires.flatMap((wire) => [wire[0] as Point, wire.at(-1) as Point]);
  for (const wire of wires) {
    for (const point of [...ends, ...terminals]) {
      const touches = segmentsOf(wire).some((segment) => isOn(point, segment));
      if (touches) parent.set(find(key(point)), find(key(wire[0] as Point)));
    }
  }
  return (point) => find(key(point));
}

describe.each(EXAMPLES.map((example) => [example.id, example] as const))("the drawing of %s", (_id, example) => {
  const file = fileOf(example.json);
  const drawing = drawingOf(file);
  const { elements } = example.json as Json;
  const placed = elements.map(({ id, nodes }) => {
    const placement = drawing.placements.find(({ part }) => part === id);
    if (!placement) throw new Error(`${id} is not drawn`);
    return { id, nodes, placement, points: terminalPoints(placement, nodes.length) };
  });
  const terminals = placed.flatMap(({ points }) => points);

  it("joins the terminals that the file joins, and no others", () => {
    const setOf = joinedPoints(drawing.wires, terminals);
    const setByNode = new Map<string, string>();
    const nodeBySet = new Map<string, string>();
    for (const { id, nodes, points } of placed) {
      for (const [i, node] of nodes.entries()) {
        const set = setOf(points[i] as Point);
        expect([id, setByNode.get(node) ?? set]).toEqual([id, set]);
        expect([id, nodeBySet.get(set) ?? node]).toEqual([id, node]);
        setByNode.set(node, set);
        nodeBySet.set(set, node);
      }
    }
  });

  it("has its reference symbol on the reference node", () => {
    const reference = drawing.reference as Point;
    const wire = drawing.wires.find((points) => segmentsOf(points).some((segment) => isOn(reference, segment)));
    const setOf = joinedPoints(drawing.wires, terminals);
    const joined = placed.flatMap(({ nodes, points }) =>
      nodes.filter((_, i) => setOf(points[i] as Point) === setOf((wire ?? [])[0] as Point)),
    );
    expect(new Set(joined)).toEqual(new Set([file.circuit.reference]));
  });

  it("has parts of length 4 that lie apart from each other, with room for their labels", () => {
    for (const { placement, points } of placed) {
      if (placement.shape !== "line") continue;
      const [[x1, y1], [x2, y2]] = points as unknown as Segment;
      expect(Math.abs(x1 - x2) + Math.abs(y1 - y2)).toBe(4);
    }
    for (const [i, { id, placement }] of placed.entries()) {
      for (const other of placed.slice(i + 1)) {
        expect([id, other.id, areApart(placement, other.placement)]).toEqual([id, other.id, true]);
      }
    }
  });

  it("has no wire through a part", () => {
    for (const { id, placement } of placed) {
      for (const segment of drawing.wires.flatMap(segmentsOf)) {
        expect([id, segment, overlap(insideOf(placement), boxOf(...segment))]).toEqual([id, segment, false]);
      }
    }
  });

  it("has no wire that lies along another", () => {
    const segments = drawing.wires.flatMap(segmentsOf);
    for (const [i, a] of segments.entries()) {
      for (const b of segments.slice(i + 1)) expect([a, b, runsAlong(a, b)]).toEqual([a, b, false]);
    }
  });
});

/** Corners of a box; a box without width is a line. */
type Box = { readonly left: number; readonly right: number; readonly top: number; readonly bottom: number };

function boxOf([x1, y1]: Point, [x2, y2]: Point): Box {
  return { left: Math.min(x1, x2), right: Math.max(x1, x2), top: Math.min(y1, y2), bottom: Math.max(y1, y2) };
}

function grown({ left, right, top, bottom }: Box, dx: number, dy: number): Box {
  return { left: left - dx, right: right + dx, top: top - dy, bottom: bottom + dy };
}

/** What nothing else may touch: a part's line without its ends and half a step to each side, or its body. */
function insideOf(placement: Placement): Box {
  if (placement.shape === "body") return grown(boxOf(placement.at, placement.at), 1.5, 1.5);
  const box = boxOf(placement.from, placement.to);
  return box.left === box.right ? grown(box, 0.5, -0.5) : grown(box, -0.5, 0.5);
}

/** Whether two boxes share more than an edge; a line is in a box where it lies strictly between the sides. */
function overlap(a: Box, b: Box): boolean {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}

/** Parallel parts beside each other are 4 apart at least; others only must not overlap. */
function areApart(a: Placement, b: Placement): boolean {
  const [first, second] = [insideOf(a), insideOf(b)];
  const isUpright = (placement: Placement) => placement.shape === "line" && placement.from[0] === placement.to[0];
  const isLevel = (placement: Placement) => placement.shape === "line" && placement.from[1] === placement.to[1];
  if (isUpright(a) && isUpright(b)) return !overlap(grown(first, 2.9, 0), second);
  if (isLevel(a) && isLevel(b)) return !overlap(grown(first, 0, 2.9), second);
  return !overlap(first, second);
}

function runsAlong(a: Segment, b: Segment): boolean {
  const [p, q] = [boxOf(...a), boxOf(...b)];
  const sameColumn = p.left === p.right && q.left === q.right && p.left === q.left;
  const sameRow = p.top === p.bottom && q.top === q.bottom && p.top === q.top;
  return (sameColumn && p.top < q.bottom && q.top < p.bottom) || (sameRow && p.left < q.right && q.left < p.right);
}
