import { type Board, type Point, pointText, segmentsOf, terminalPoints } from "../../shared/board";
import type { NodeReport } from "../../shared/solve/report";
import { spotOf } from "./frame";
import type { Candidate, LabelPlacer } from "./labelPlacing";
import { type Anchor, valueVariants } from "./text";

const SIZE = 14;
/** Dislike of each step away from a node's first point, and of the wider of two distances. */
const NEXT_POINT = 40;
const WIDER = 120;
const STACKED = 200;
/** Of a node with many points, the first so many are tried. */
const POINTS_TRIED = 24;

/** Writes the names that people gave to nodes; with `voltages`, every node's name and voltage. */
export function writeNodes(
  board: Board,
  nodeAt: (point: Point) => string | null,
  voltages: readonly NodeReport[] | null,
  placer: LabelPlacer,
): void {
  const points = nodePoints(board, nodeAt);
  const texts = voltages
    ? voltages.flatMap(({ node, voltage }) =>
        voltage ? [{ node, text: `${node}: ${voltage.text}`, at: null, entry: null }] : [],
      )
    : board.nodeNames.map(({ id, name, at }) => ({ node: nodeAt(at) ?? name, text: name, at, entry: id }));
  for (const { node, text, at, entry } of texts) {
    const places = [...(at ? [at] : []), ...(points.get(node) ?? [])];
    const first = places[0];
    if (!first) continue;
    const variants = valueVariants(text);
    const candidates = places
      .slice(0, POINTS_TRIED)
      .flatMap((point, i): readonly Candidate[] =>
        aroundPoint(point).flatMap(({ anchor, dislike }) =>
          variants.map((lines, k) => ({ anchor, lines, dislike: dislike + NEXT_POINT * i + STACKED * k })),
        ),
      );
    placer.place({ candidates, size: SIZE, tone: "soft", entry, about: spotOf(first) });
  }
}

/** The corners, ends and middles of a node's wires and the terminals on it, in the order of the drawing. */
function nodePoints(board: Board, nodeAt: (point: Point) => string | null): ReadonlyMap<string, readonly Point[]> {
  const middles = board.wires.flatMap((wire) =>
    segmentsOf(wire.points).map(([a, b]) => ({ x: Math.round((a.x + b.x) / 2), y: Math.round((a.y + b.y) / 2) })),
  );
  const corners = board.wires.flatMap((wire) => wire.points);
  const seen = new Set<string>();
  const points = new Map<string, Point[]>();
  for (const point of [...board.parts.flatMap(terminalPoints), ...corners, ...middles]) {
    const node = nodeAt(point);
    if (node === null || seen.has(pointText(point))) continue;
    seen.add(pointText(point));
    points.set(node, [...(points.get(node) ?? []), point]);
  }
  return points;
}

function aroundPoint(point: Point): readonly { readonly anchor: Anchor; readonly dislike: number }[] {
  const { x, y } = spotOf(point);
  const corners = [
    [-1, -1],
    [1, -1],
    [-1, 1],
    [1, 1],
  ] as const;
  return corners.flatMap(([dx, dy]) => {
    const align = dx < 0 ? ("end" as const) : ("start" as const);
    return [
      { anchor: { x: x + dx * 7, y: y + dy * 13, align }, dislike: 0 },
      { anchor: { x: x + dx * 16, y: y + dy * 14, align }, dislike: WIDER },
    ];
  });
}
