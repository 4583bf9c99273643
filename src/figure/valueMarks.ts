import { type Board, type Point, pointText, terminalPoints } from "../../shared/board";
import type { NodeReport, PartReport } from "../../shared/solve/report";
import { boxAround } from "./box";
import { type Stroke, stroke, type Tone } from "./figure";
import { arrowHead, line, lineFrame, spotOf } from "./frame";
import type { LabelPlacer } from "./labelPlacing";
import { bodyHalf } from "./symbols";
import { type Anchor, plain } from "./text";

const SIZE = 14;
const TONE: Tone = "soft";

/** Writes the voltage of each node beside the first place where the node has room. */
export function writeNodeVoltages(
  board: Board,
  nodeAt: (point: Point) => string | null,
  nodes: readonly NodeReport[],
  placer: LabelPlacer,
): void {
  const voltages = new Map(nodes.map((node) => [node.node, node.voltage]));
  const corners = [...board.wires.flatMap((wire) => wire.points), ...board.parts.flatMap(terminalPoints)];
  const byNode = new Map<string, Point[]>();
  const seen = new Set<string>();
  for (const point of corners) {
    const node = nodeAt(point);
    if (node === null || seen.has(pointText(point))) continue;
    seen.add(pointText(point));
    byNode.set(node, [...(byNode.get(node) ?? []), point]);
  }
  for (const [node, points] of byNode) {
    const voltage = voltages.get(node);
    if (!voltage) continue;
    const lines = [[plain(`${node}: ${voltage.text}`)]];
    const candidates = points.flatMap(aroundPoint).map((anchor, i) => ({ anchor, lines, dislike: 120 * i }));
    placer.place({ candidates, size: SIZE, tone: TONE });
  }
}

function aroundPoint(point: Point): readonly Anchor[] {
  const { x, y } = spotOf(point);
  return [
    { x: x + 7, y: y - 12, align: "start" },
    { x: x - 7, y: y - 12, align: "end" },
    { x: x + 7, y: y + 13, align: "start" },
    { x: x - 7, y: y + 13, align: "end" },
  ];
}

/** Draws the current of each part on a line as an arrow in the direction in which it really flows, with its size. */
export function writeCurrents(board: Board, parts: readonly PartReport[], placer: LabelPlacer): readonly Stroke[] {
  const currents = new Map(parts.map((part) => [part.part, part.current]));
  return board.parts.flatMap((part) => {
    const current = currents.get(part.name);
    // A current source says its current already, and where none flows there is no arrow to draw.
    if (part.shape !== "line" || part.kind === "current-source" || !current || current.decimal === 0) return [];
    const frame = lineFrame(part.from, part.to);
    const direction = (current.decimal ?? 1) < 0 ? -1 : 1;
    const half = bodyHalf(part.kind, frame.length);
    const text = current.decimal === null ? current.text : current.text.replace(/^−/, "");
    return currentOnLead(frame, half, direction, text, placer);
  });
}

function currentOnLead(
  frame: ReturnType<typeof lineFrame>,
  half: number,
  direction: 1 | -1,
  text: string,
  placer: LabelPlacer,
): readonly Stroke[] {
  const size = 26;
  const places = [-1, 1].flatMap((end) => [1, -1].map((side) => ({ s: end * (half + 16), t: side * 11 })));
  const cost = ({ s, t }: { s: number; t: number }) =>
    placer.covered(boxAround([frame.at(s - size / 2, t), frame.at(s + size / 2, t)], 3));
  const { s, t } = places.reduce((best, place) => (cost(place) < cost(best) ? place : best));
  const tip = s + (direction * size) / 2;
  placer.block([boxAround([frame.at(s - size / 2, t), frame.at(s + size / 2, t)], 4)]);
  const middle = frame.at(s, t);
  const out = { x: middle.x - frame.at(s, 0).x, y: middle.y - frame.at(s, 0).y };
  const anchors: readonly Anchor[] =
    Math.abs(out.x) < 1
      ? [0, 22, -22].map((shift) => ({ x: middle.x + shift, y: middle.y + Math.sign(out.y) * 13, align: "middle" }))
      : [0, 16, -16].map((shift) => ({
          x: middle.x + Math.sign(out.x) * 8,
          y: middle.y + shift,
          align: out.x > 0 ? "start" : "end",
        }));
  placer.place({
    candidates: anchors.map((anchor, i) => ({ anchor, lines: [[plain(text)]], dislike: 120 * i })),
    size: SIZE,
    tone: TONE,
  });
  return [
    stroke(line(frame.at(s - (direction * size) / 2, t), frame.at(tip - direction * 4, t)), TONE, 1.6),
    stroke(arrowHead(frame, tip, t, 9, direction), TONE, 1, { fill: "tone" }),
  ];
}
