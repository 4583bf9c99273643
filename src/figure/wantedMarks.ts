import {
  type Across,
  type Board,
  type BoardPart,
  type BoardWanted,
  type BoardWire,
  type EntryId,
  type Point,
  terminalPoints,
} from "../../shared/board";
import type { Direction, Winding } from "../../shared/circuit";
import { boxAround } from "./box";
import { type Run, type Spot, type Stroke, stroke, type Tone } from "./figure";
import { arrowHead, circle, type Frame, line, lineFrame, minusSign, plusSign, spotOf } from "./frame";
import type { LabelPlacer } from "./labelPlacing";
import { bodyWidth } from "./symbols";
import { type Anchor, addendRuns } from "./text";

const SIZE = 19;
/** How far a name may stand along its line from the middle of its mark, in pixels. */
const SHIFTS = [0, -13, 13, -26, 26, -40, 40];

type Branch = BoardPart | BoardWire;
type Ends = { readonly from: Point; readonly to: Point; readonly width: number };

/** What marks are drawn with: the board they stand on, their tone, the addends' numbers and the place for names. */
export type Pen = Brush & { readonly board: Board; readonly primes: readonly number[] };
type Brush = {
  readonly tone: Tone;
  readonly placer: LabelPlacer;
  /** What a press on the name means. */
  readonly entry: EntryId | null;
};

/** Draws a wanted quantity where it is marked: an arrow with its name for a current, plus and minus for a voltage. */
export function drawWanted(wanted: BoardWanted, name: string, pen: Pen): readonly Stroke[] {
  const runs = [addendRuns(name, pen.primes)];
  if (wanted.kind === "current") return drawCurrent(wanted.part, wanted.direction, wanted.winding, runs, pen);
  if (wanted.kind === "power") {
    const ends = endsOf(wanted.part, "primary", pen);
    if (ends) placeBeside(lineFrame(ends.from, ends.to), 0, ends.width + 26, runs, pen);
    return [];
  }
  return drawAcross(wanted.across, wanted.kind === "voltage", runs, pen);
}

/** An arrow beside a part that shows in which direction its current is counted. */
export function drawCurrent(
  part: EntryId,
  direction: Direction,
  winding: Winding,
  lines: Lines,
  pen: Pen,
): readonly Stroke[] {
  const ends = endsOf(part, winding, pen);
  return ends ? currentArrow(ends, direction === "forward" ? 1 : -1, lines, pen) : [];
}

/** Plus and minus beside a part, or at two points, that show how a voltage is counted. */
export function drawAcross(across: Across, isVoltage: boolean, lines: Lines, pen: Pen): readonly Stroke[] {
  if (across.by === "points") return portMarks(across.from, across.to, isVoltage, lines, pen);
  const ends = endsOf(across.part, "primary", pen);
  if (!ends) return [];
  return voltageSigns(across.direction === "forward" ? ends : { ...ends, from: ends.to, to: ends.from }, lines, pen);
}

function endsOf(id: EntryId, winding: Winding, { board }: Pen): Ends | null {
  const branch = [...board.parts, ...board.wires].find((entry) => entry.id === id);
  if (!branch) return null;
  return "kind" in branch && branch.kind === "ideal-opamp" ? outputLead(branch) : endsOfBranch(branch, winding);
}

/** An op amp's current is that of its output lead, counted from the terminal inward. */
function outputLead(part: Extract<BoardPart, { readonly kind: "ideal-opamp" }>): Ends | null {
  const out = terminalPoints(part)[2];
  if (!out) return null;
  const step = { x: (out.x - part.at.x) / 2, y: (out.y - part.at.y) / 2 };
  const from = { x: out.x + step.x, y: out.y + step.y };
  return { from, to: { x: part.at.x + 1.25 * step.x, y: part.at.y + 1.25 * step.y }, width: 2 };
}

/** The ends of a part or of its winding, of a wire those of its longest piece. */
function endsOfBranch(branch: Branch, winding: Winding): Ends | null {
  if ("points" in branch) {
    const pieces = branch.points.slice(1).map((to, i) => ({ from: branch.points[i] as Point, to, width: 2 }));
    const length = ({ from, to }: Ends) => Math.abs(from.x - to.x) + Math.abs(from.y - to.y);
    return pieces.reduce((longest, piece) => (length(piece) > length(longest) ? piece : longest));
  }
  const points = terminalPoints(branch).slice(winding === "secondary" ? 2 : 0);
  const [from, to] = [points[0], points[1]];
  if (!from || !to) return null;
  return { from, to, width: bodyWidth(branch.kind, lineFrame(from, to).length) };
}

/** The side of a line on which a mark of this depth covers less. */
function clearSide(frame: Frame, near: number, far: number, half: number, placer: LabelPlacer): 1 | -1 {
  const cost = (side: 1 | -1) => placer.covered(boxAround([frame.at(-half, side * near), frame.at(half, side * far)]));
  // Names of parts prefer the side above and to the right; marks begin with the other one.
  const across = { x: frame.at(0, 1).x - frame.at(0, 0).x, y: frame.at(0, 1).y - frame.at(0, 0).y };
  const [first, second] = across.y > 0.5 || across.x < -0.5 ? ([1, -1] as const) : ([-1, 1] as const);
  return cost(first) <= cost(second) ? first : second;
}

function currentArrow(ends: Ends, direction: 1 | -1, lines: Lines, { tone, placer, entry }: Brush): readonly Stroke[] {
  const frame = lineFrame(ends.from, ends.to);
  const reach = ends.width + 15;
  const half = Math.min(24, frame.length * 0.32);
  const t = reach * clearSide(frame, ends.width + 6, reach + 30, half, placer);
  const shaft = line(frame.at(-half * direction, t), frame.at((half - 4) * direction, t));
  placer.block([boxAround([frame.at(-half, t), frame.at(half, t)], 6)]);
  placeBeside(frame, 0, Math.sign(t) * (reach + 8), lines, { tone, placer, entry });
  const head = arrowHead(frame, half * direction, t, 11, direction);
  return [stroke(shaft, tone, 2.2), stroke(head, tone, 1, { fill: "tone" })];
}

type Lines = readonly (readonly Run[])[];

/** A name beside a line, `t` pixels across: its near side faces the line. */
function placeBeside(frame: Frame, s: number, t: number, lines: Lines, { tone, placer, entry }: Brush): void {
  const spot = frame.at(s, t);
  const middle = frame.at(s, 0);
  const isLevel = Math.abs(spot.x - middle.x) < 0.5;
  const anchors: readonly Anchor[] = isLevel
    ? SHIFTS.map((shift) => ({
        x: spot.x + shift,
        y: spot.y + Math.sign(spot.y - middle.y) * 10,
        align: "middle",
      }))
    : SHIFTS.map((shift) => ({ x: spot.x, y: spot.y + shift, align: spot.x > middle.x ? "start" : "end" }));
  placer.place({
    candidates: anchors.map((anchor, i) => ({ anchor, lines, dislike: 150 * i })),
    size: SIZE,
    tone,
    entry,
    about: spot,
  });
}

function voltageSigns(ends: Ends, lines: Lines, { tone, placer, entry }: Brush): readonly Stroke[] {
  const frame = lineFrame(ends.from, ends.to);
  const reach = ends.width + 14;
  const half = Math.min(34, frame.length * 0.36);
  const t = reach * clearSide(frame, ends.width + 6, reach + 24, half, placer);
  const [plus, minus] = [frame.at(-half, t), frame.at(half, t)];
  placer.block([boxAround([plus], 7), boxAround([minus], 7)]);
  placeBeside(frame, 0, t - Math.sign(t) * 4, lines, { tone, placer, entry });
  return [stroke(plusSign(plus) + minusSign(minus), tone, 2)];
}

/** Two nodes seen as a port: a small circle at each, with plus and minus where a voltage is wanted. */
function portMarks(
  from: Point,
  to: Point,
  isVoltage: boolean,
  lines: Lines,
  { tone, placer, entry }: Brush,
): readonly Stroke[] {
  const spots: readonly [Spot, Spot] = [spotOf(from), spotOf(to)];
  const circles = spots.map((spot) => circle(spot, 5)).join("");
  const signAt = (spot: Spot) =>
    [-1, 1].map((side) => ({ x: spot.x + side * 14, y: spot.y - 13 })).sort(byCover(placer))[0] as Spot;
  const [plus, minus] = [signAt(spots[0]), signAt(spots[1])];
  placer.block(spots.map((spot) => boxAround([spot], 7)));
  if (isVoltage) placer.block([boxAround([plus], 7), boxAround([minus], 7)]);
  const middle = { x: (spots[0].x + spots[1].x) / 2, y: (spots[0].y + spots[1].y) / 2 };
  const around = [0, 20, -20, 44, -44].flatMap((shift): Anchor[] => [
    { x: middle.x + 14 + Math.abs(shift) / 4, y: middle.y + shift, align: "start" },
    { x: middle.x - 14 - Math.abs(shift) / 4, y: middle.y + shift, align: "end" },
  ]);
  placer.place({
    candidates: around.map((anchor, i) => ({ anchor, lines, dislike: 150 * i })),
    size: SIZE,
    tone,
    entry,
    about: middle,
  });
  const signs = isVoltage ? [stroke(plusSign(plus) + minusSign(minus), tone, 2)] : [];
  return [stroke(circles, tone, 1.8, { fill: "paper" }), ...signs];
}

const byCover = (placer: LabelPlacer) => (a: Spot, b: Spot) =>
  placer.covered(boxAround([a], 7)) - placer.covered(boxAround([b], 7));
