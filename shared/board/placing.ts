import type { Board, BoardWire, EntryId } from "./board";
import type { Command, NewPart } from "./command";
import { endsOf } from "./joins";
import { isOnSegment, type Point, samePoint, segmentsOf } from "./point";
import { withoutIdlePoints } from "./route";
import { terminalPoints } from "./terminals";

/**
 * Places a part on a line. Where it lies along a wire, it takes the place of that piece of wire: the wire is cut at
 * the part's ends, unless something is joined to the piece between them. `newId` names what is placed.
 */
export function placingPart(board: Board, part: NewPart, newId: () => EntryId): Command {
  const place: Command = { do: "placePart", id: newId(), part };
  if (part.shape !== "line") return place;
  const cuts = board.wires.flatMap((wire) => cutWire(board, wire, part.from, part.to, newId));
  return cuts.length === 0 ? place : { do: "all", commands: [place, ...cuts] };
}

/** The id of the part that {@link placingPart} places. */
export function placedId(command: Command): EntryId | null {
  if (command.do === "placePart") return command.id;
  return command.do === "all" && command.commands[0] ? placedId(command.commands[0]) : null;
}

function cutWire(board: Board, wire: BoardWire, from: Point, to: Point, newId: () => EntryId): readonly Command[] {
  const pieces = segmentsOf(wire.points);
  const index = pieces.findIndex(([a, b]) => isOnSegment(from, a, b) && isOnSegment(to, a, b));
  const piece = pieces[index];
  if (!piece || isJoinedBetween(board, from, to)) return [];
  const along = (point: Point) => Math.abs(point.x - piece[0].x) + Math.abs(point.y - piece[0].y);
  const [near, far] = along(from) <= along(to) ? [from, to] : [to, from];
  const head = withoutIdlePoints([...wire.points.slice(0, index + 1), near]);
  const tail = withoutIdlePoints([far, ...wire.points.slice(index + 1)]);
  const [hasHead, hasTail] = [head.length >= 2, tail.length >= 2];
  if (!hasHead && !hasTail) return [{ do: "delete", ids: [wire.id] }];
  const kept: Command = { do: "putWire", id: wire.id, points: hasHead ? head : tail };
  return hasHead && hasTail ? [kept, { do: "placeWire", id: newId(), points: tail }] : [kept];
}

function isJoinedBetween(board: Board, from: Point, to: Point): boolean {
  const joins = [
    ...board.parts.flatMap(terminalPoints),
    ...board.wires.flatMap((wire) => endsOf(wire.points)),
    ...board.references.map((mark) => mark.at),
    ...board.nodeNames.map((mark) => mark.at),
  ];
  return joins.some((point) => isOnSegment(point, from, to) && !samePoint(point, from) && !samePoint(point, to));
}
