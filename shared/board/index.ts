export { applyCommand } from "./apply";
export type * from "./board";
export { EMPTY_BOARD, entryId } from "./board";
export { type BoardCircuit, circuitOf } from "./boardCircuit";
export { boardFromFile, fileFromBoard } from "./boardFile";
export { BoardReplay, type BoardUpdate, type Range } from "./boardReplay";
export { carry, middleOfEntries, type Placing, placed } from "./carry";
export { type Clip, type ClipProblem, clipOf, clipProblemText, cornerOf, readClip, writeClip } from "./clip";
export type { Command, NewPart, Origin } from "./command";
export { rearranging } from "./difference";
export { joinDots } from "./dots";
export { type BoardEdit, EditReader } from "./edits";
export {
  INK_COLOURS,
  type Ink,
  type InkArrow,
  type InkColour,
  type InkCommand,
  type InkMark,
  type InkNote,
  type InkStroke,
  isNoteText,
  isSeenOn,
  NO_INK,
  NOTE_LIMIT,
} from "./ink";
export { type InkSpot, inkSpot, readSpots, spotsText } from "./inkSpot";
export { endsOf, isOnWire, type Joins, joinPoints } from "./joins";
export { isName, namePrefix, nextFreeName } from "./names";
export { LOCAL, type OwnHistory, observeBoard, ownHistory } from "./observe";
export { type Pasting, pasting } from "./paste";
export { placedId, placingPart } from "./placing";
export {
  addPoints,
  inReadingOrder,
  isOnGrid,
  isOnSegment,
  isStraight,
  type Point,
  pointText,
  readPoint,
  samePoint,
  segmentsOf,
} from "./point";
export { type BoardProblem, boardProblemText } from "./problem";
export { readBoard } from "./read";
export { observeInk, readInk } from "./readInk";
export { type KindWithValue, readPartValue, readValueText, VALUE_UNIT } from "./readPartValue";
export { replaceBoard } from "./replace";
export { routeWire, withoutIdlePoints } from "./route";
export { distanceToSegment, simplifySpots, strokePieces } from "./simplify";
export { readStretch, type StretchReading } from "./stretch";
export { placeVector, terminalPoints } from "./terminals";
export { thinBoard, writeThinBoard } from "./thinBoard";
export { titleOf } from "./title";
export { partValueText, shownValue } from "./valueText";
export { partOfWanted, WANTED_KINDS } from "./wanted";
