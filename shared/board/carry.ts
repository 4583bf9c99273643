import type { Board, BoardPart, BoardWire, EntryId, Turn } from "./board";
import { endsOf, isOnWire } from "./joins";
import { addPoints, isOnGrid, isOnSegment, type Point, pointText, samePoint, segmentsOf } from "./point";
import { routeWire, type Segment, type Surroundings, withoutIdlePoints } from "./route";
import { placeVector, terminalPoints } from "./terminals";

/** Where a selection goes: shifted, or turned or mirrored about a point. */
export type Placing =
  | { readonly kind: "shift"; readonly by: Point }
  /** A quarter turn clockwise. */
  | { readonly kind: "turn"; readonly about: Point }
  /** Left and right change places. */
  | { readonly kind: "mirror"; readonly about: Point };

/** The new place of a point. */
export function placed(point: Point, placing: Placing): Point {
  switch (placing.kind) {
    case "shift":
      return addPoints(point, placing.by);
    case "turn": {
      const { x, y } = placing.about;
      return { x: x - (point.y - y), y: y + (point.x - x) };
    }
    case "mirror":
      return { x: 2 * placing.about.x - point.x, y: point.y };
  }
}

/**
 * The board with a selection in its new place and everything still connected as it was: ends of other wires follow
 * the terminals and wires that they meet, round corners where they must, and a new wire bridges the gap where
 * something stays behind that is no wire's end. Where a wire has to pass over what it was not joined to before, the
 * circuit changes; a way that touches nothing is taken wherever there is one. `newId` names the new wires.
 *
 * Null where the selection would leave the grid.
 */
export function carry(board: Board, ids: ReadonlySet<EntryId>, placing: Placing, newId: () => EntryId): Board | null {
  const to = (point: Point) => placed(point, placing);
  const meeting = meetingOf(board, ids);
  const parts = board.parts.map((part) => (ids.has(part.id) ? placedPart(part, placing) : part));
  const marks = (mark: { readonly id: EntryId; readonly at: Point }) => ids.has(mark.id) || meeting.takesMark(mark.at);
  const references = board.references.map((mark) => (marks(mark) ? { ...mark, at: to(mark.at) } : mark));
  const nodeNames = board.nodeNames.map((mark) => (marks(mark) ? { ...mark, at: to(mark.at) } : mark));
  const settled = settleWires(board, ids, meeting, to);
  const whole: Board = { ...board, parts, references, nodeNames, wires: settled.wires };
  const wires = reroute(whole, settled, bridgesOf(board, ids, meeting, to), ids, newId);
  const next = { ...whole, wires };
  return [...parts.flatMap(terminalPoints), ...wires.flatMap((wire) => wire.points)].every(isOnGrid) ? next : null;
}

function placedPart(part: BoardPart, placing: Placing): BoardPart {
  if (part.shape === "line") return { ...part, from: placed(part.from, placing), to: placed(part.to, placing) };
  const at = placed(part.at, placing);
  switch (placing.kind) {
    case "shift":
      return { ...part, at };
    case "turn":
      return { ...part, at, turn: ((part.turn + 90) % 360) as Turn };
    case "mirror":
      return { ...part, at, turn: ((540 - part.turn) % 360) as Turn, flip: !part.flip };
  }
}

/** Where the selection meets the rest of the board. */
type Meeting = {
  /** Whether the selection conducts at a point: a terminal, or anywhere on a selected wire. */
  readonly isCarried: (point: Point) => boolean;
  /** Whether something that is not selected and is no wire's end holds a point where it is. */
  readonly isPinned: (point: Point) => boolean;
  /** Whether a mark at a point goes along, since all that it marks does. */
  readonly takesMark: (point: Point) => boolean;
};

function meetingOf(board: Board, ids: ReadonlySet<EntryId>): Meeting {
  const keys = (points: readonly Point[]) => new Set(points.map(pointText));
  const [chosenParts, otherParts] = parted(board.parts, ids);
  const [chosenWires, otherWires] = parted(board.wires, ids);
  const [chosenReferences] = parted(board.references, ids);
  const carried = keys([...chosenParts.flatMap(terminalPoints), ...chosenReferences.map((mark) => mark.at)]);
  const held = keys(otherParts.flatMap(terminalPoints));
  const isCarried = (point: Point) =>
    carried.has(pointText(point)) || chosenWires.some((wire) => isOnWire(point, wire.points));
  const isPinned = (point: Point) =>
    held.has(pointText(point)) || otherWires.some((wire) => isInside(point, wire.points));
  return { isCarried, isPinned, takesMark: (point) => isCarried(point) && !isPinned(point) };
}

function parted<T extends { readonly id: EntryId }>(
  entries: readonly T[],
  ids: ReadonlySet<EntryId>,
): readonly [readonly T[], readonly T[]] {
  return [entries.filter((entry) => ids.has(entry.id)), entries.filter((entry) => !ids.has(entry.id))];
}

function isInside(point: Point, wire: readonly Point[]): boolean {
  return isOnWire(point, wire) && !endsOf(wire).some((end) => samePoint(end, point));
}

/** A piece that is missing: of a wire whose end has gone, or, with `wire` null, between what went and what stays. */
type Gap = {
  readonly wire: EntryId | null;
  readonly from: Point;
  readonly to: Point;
  readonly favoured: readonly Point[] | null;
};

type Settled = {
  /** Every wire that keeps any of its line; the ends that follow are cut off. */
  readonly wires: readonly BoardWire[];
  readonly gaps: readonly Gap[];
};

/** Puts selected wires in their places, and cuts from others the ends that have to find a new way. */
function settleWires(
  board: Board,
  ids: ReadonlySet<EntryId>,
  { isCarried, isPinned }: Meeting,
  to: (point: Point) => Point,
): Settled {
  const gaps: Gap[] = [];
  const stays = [
    ...board.parts.flatMap(terminalPoints),
    ...board.references.map((mark) => mark.at),
    ...board.nodeNames.map((mark) => mark.at),
    ...board.wires.flatMap((wire) => endsOf(wire.points)),
  ];
  const follows = (end: Point) => isCarried(end) && !isPinned(end) && !samePoint(end, to(end));
  const wires = board.wires.map((wire): BoardWire => {
    if (ids.has(wire.id)) return { ...wire, points: wire.points.map(to) as unknown as BoardWire["points"] };
    const [first, last] = endsOf(wire.points) as [Point, Point];
    const [atStart, atEnd] = [follows(first), follows(last)];
    if (!atStart && !atEnd) return wire;
    const joined = stays.filter((point) => isInside(point, wire.points));
    if (atStart && atEnd && joined.length === 0) {
      // Nothing holds it, so it goes along as it is, unless it would come to lie on something.
      gaps.push({ wire: wire.id, from: to(first), to: to(last), favoured: wire.points.map(to) });
      return { ...wire, points: [to(first)] as unknown as BoardWire["points"] };
    }
    let points = wire.points as readonly Point[];
    if (atEnd) points = cutEnd(points, joined, to, (gap) => gaps.push({ ...gap, wire: wire.id }));
    if (atStart) {
      points = cutEnd([...points].reverse(), joined, to, (gap) => gaps.push({ ...gap, wire: wire.id }));
      points = [...points].reverse();
    }
    return { ...wire, points: points as unknown as BoardWire["points"] };
  });
  return { wires, gaps };
}

/** Cuts a wire after the last point that something else is joined to, and says from where to where it must go on. */
function cutEnd(
  points: readonly Point[],
  joined: readonly Point[],
  to: (point: Point) => Point,
  report: (gap: Omit<Gap, "wire">) => void,
): readonly Point[] {
  const end = points.at(-1) as Point;
  const keep = lastJoined(points, joined);
  const rest = [keep.at, ...points.slice(keep.segment + 1)];
  report({ from: keep.at, to: to(end), favoured: slid(rest, to(end)) });
  return withoutIdlePoints([...points.slice(0, keep.segment + 1), keep.at]);
}

/** The joined point nearest to a wire's end, and the number of the piece that it lies on; else the wire's start. */
function lastJoined(points: readonly Point[], joined: readonly Point[]): { at: Point; segment: number } {
  const pieces = segmentsOf(points);
  for (let i = pieces.length - 1; i >= 0; i -= 1) {
    const [a, b] = pieces[i] as Segment;
    const on = joined.filter((point) => isOnSegment(point, a, b));
    const away = (point: Point) => Math.abs(point.x - b.x) + Math.abs(point.y - b.y);
    const nearest = on.sort((p, q) => away(p) - away(q))[0];
    if (nearest) return { at: nearest, segment: i };
  }
  return { at: points[0] as Point, segment: 0 };
}

/** The same way with its last corner moved so that it ends elsewhere; null where there is no corner to move. */
function slid(points: readonly Point[], end: Point): readonly Point[] | null {
  const [beforeCorner, corner, last] = points.slice(-3);
  if (points.length < 3 || !beforeCorner || !corner || !last) return null;
  const moved = corner.y === last.y ? { x: corner.x, y: end.y } : { x: end.x, y: corner.y };
  const way = withoutIdlePoints([...points.slice(0, -2), moved, end]);
  return way.length >= 2 ? way : null;
}

/** The gaps that open where the selection leaves something behind that does not follow. */
function bridgesOf(
  board: Board,
  ids: ReadonlySet<EntryId>,
  { isCarried, isPinned }: Meeting,
  to: (point: Point) => Point,
): readonly Gap[] {
  const [chosenParts, otherParts] = parted(board.parts, ids);
  const [chosenWires] = parted(board.wires, ids);
  const [chosenReferences] = parted(board.references, ids);
  const points = [
    ...chosenParts.flatMap(terminalPoints),
    ...chosenWires.flatMap((wire) => endsOf(wire.points)),
    ...chosenReferences.map((mark) => mark.at),
    ...otherParts.flatMap(terminalPoints).filter(isCarried),
  ];
  const pinned = [...new Map(points.map((point) => [pointText(point), point])).values()].filter(isPinned);
  return pinned
    .filter((point) => !samePoint(point, to(point)))
    .map((point) => ({ wire: null, from: point, to: to(point), favoured: null }));
}

/** Finds a way for every gap, and joins it to the wire that it goes on from. */
function reroute(
  board: Board,
  { wires, gaps }: Settled,
  bridges: readonly Gap[],
  ids: ReadonlySet<EntryId>,
  newId: () => EntryId,
): readonly BoardWire[] {
  const lines = new Map(wires.map((wire) => [wire.id, wire]));
  const terminals = new Set([...board.parts].flatMap(terminalPoints).map(pointText));
  const all = [...gaps, ...bridges];
  for (const gap of all) {
    if (samePoint(gap.from, gap.to)) continue;
    const way = routeWire(gap.from, gap.to, surroundings(board, [...lines.values()], gap, all), gap.favoured);
    const own = gap.wire === null ? onlyWireTo(gap.to, [...lines.values()], ids, terminals) : lines.get(gap.wire);
    const onward = gap.wire === null ? [...way].reverse() : way;
    const wire = own ?? { id: newId(), name: "", points: [onward[0] as Point] };
    lines.set(wire.id, { ...wire, points: joinedAt(wire.points, onward) as BoardWire["points"] });
  }
  return [...lines.values()].filter((wire) => wire.points.length >= 2);
}

/** The selected wire that ends at a point, where nothing else does: a bridge to there is the wire's own new piece. */
function onlyWireTo(
  point: Point,
  wires: readonly BoardWire[],
  ids: ReadonlySet<EntryId>,
  terminals: ReadonlySet<string>,
): BoardWire | null {
  const there = wires.filter((wire) => endsOf(wire.points).some((end) => samePoint(end, point)));
  const [only] = there;
  return only && there.length === 1 && ids.has(only.id) && !terminals.has(pointText(point)) ? only : null;
}

/** A line with a way that goes on from one of its ends. */
function joinedAt(points: readonly Point[], way: readonly Point[]): readonly Point[] {
  const [start, first, last] = [way[0] as Point, points[0] as Point, points.at(-1) as Point];
  if (samePoint(start, last)) return withoutIdlePoints([...points, ...way]);
  return samePoint(start, first) ? withoutIdlePoints([...[...way].reverse(), ...points]) : points;
}

function surroundings(board: Board, wires: readonly BoardWire[], gap: Gap, gaps: readonly Gap[]): Surroundings {
  const joins = [
    ...board.parts.flatMap(terminalPoints),
    ...board.references.map((mark) => mark.at),
    ...board.nodeNames.map((mark) => mark.at),
    ...wires.flatMap((wire) => endsOf(wire.points)),
    ...gaps.flatMap((other) => [other.from, other.to]),
  ];
  return {
    joins,
    parts: board.parts.flatMap(partLines),
    wires: wires.flatMap((wire) => (wire.id === gap.wire ? [] : segmentsOf(wire.points))),
  };
}

/** The lines that a part takes up: its own, or a block's leads and outline. */
function partLines(part: BoardPart): readonly Segment[] {
  if (part.shape === "line") return [[part.from, part.to]];
  const corners = [
    { x: -1, y: -2 },
    { x: 1, y: -2 },
    { x: 1, y: 2 },
    { x: -1, y: 2 },
  ].map((corner) => addPoints(part.at, placeVector(corner, part.turn, part.flip)));
  return [...segmentsOf([...corners, corners[0] as Point])];
}

/** The grid point about which a selection turns: the middle of its terminals, wires and marks. */
export function middleOfEntries(board: Board, ids: ReadonlySet<EntryId>): Point | null {
  const points = [
    ...parted(board.parts, ids)[0].flatMap((part) => (part.shape === "line" ? [part.from, part.to] : [part.at])),
    ...parted(board.wires, ids)[0].flatMap((wire) => wire.points),
    ...parted(board.references, ids)[0].map((mark) => mark.at),
    ...parted(board.nodeNames, ids)[0].map((mark) => mark.at),
  ];
  if (points.length === 0) return null;
  const [xs, ys] = [points.map((p) => p.x), points.map((p) => p.y)];
  const middle = (values: readonly number[]) => Math.floor((Math.min(...values) + Math.max(...values)) / 2);
  return { x: middle(xs), y: middle(ys) };
}
