import { type Board, type BoardPart, shownValue } from "../../shared/board";
import { controlledValue } from "./controlMarks";
import type { Run, Spot, Tone } from "./figure";
import { type Frame, lineFrame, spotOf } from "./frame";
import type { Candidate, LabelRequest } from "./labelPlacing";
import { bodyWidth } from "./symbols";
import { type Anchor, bold, LINE_HEIGHT, plain } from "./text";

const SIZE = 16;
const GAP = 7;

/** What of a source is said beside its name: its value, that it acts, or what it has become. */
export type LabelState = "plain" | "acts" | "short" | "open" | "zeroed short" | "zeroed open";

/** The request for a part's name and value beside its symbol. */
export function partLabel(part: BoardPart, board: Board, state: LabelState, tone: Tone): LabelRequest {
  const lines = labelLines(part, board, state, tone);
  const oneLine = [lines.flatMap((runs, i) => (i === 0 ? runs : [plain("  "), ...runs]))];
  const places = part.shape === "line" ? linePlaces(part) : blockPlaces(part);
  const candidates = places.flatMap(({ anchor, side, dislike }): Candidate[] => {
    if (anchor.align !== "middle") return [{ anchor, lines, dislike }];
    // Where one line is too wide to fit above or below, two shorter ones may.
    const stacked = { ...anchor, y: anchor.y + side * SIZE * LINE_HEIGHT * 0.5 * (lines.length - 1) };
    return [
      { anchor, lines: oneLine, dislike },
      { anchor: stacked, lines, dislike: dislike + 300 },
    ];
  });
  return { candidates, size: SIZE, tone, entry: part.id, about: middleOf(part) };
}

function middleOf(part: BoardPart): Spot {
  return part.shape === "line" ? lineFrame(part.from, part.to).at(0, 0) : spotOf(part.at);
}

function labelLines(part: BoardPart, board: Board, state: LabelState, tone: Tone): readonly (readonly Run[])[] {
  const style = typeof tone === "number" ? bold : plain;
  if (state === "zeroed short" || state === "zeroed open") {
    return [[style(`${part.name} zeroed`)], [plain(BECOMES[state])]];
  }
  const name = [style(state === "acts" ? `${part.name} acts` : part.name)];
  if (state === "short" || state === "open") return [name, [plain(BECOMES[state])]];
  if ("control" in part) return [name, controlledValue(part, board)];
  if (!("value" in part) || part.value.trim() === "") return [name];
  const value = shownValue(part.kind, part.value);
  return [name, ...valueLines(part.kind === "ideal-transformer" ? `${value} : 1` : value).map((text) => [plain(text)])];
}

const BECOMES = { short: "a short", open: "an open", "zeroed short": "a short", "zeroed open": "an open" } as const;

/** A long sinusoid goes on two lines, its frequency on the second. */
function valueLines(value: string): readonly string[] {
  const [size, rate] = value.split(" @ ");
  return size !== undefined && rate !== undefined ? [size, `@ ${rate}`] : [value];
}

/** `side` is −1 above or to the left of the part, +1 below or to the right. */
type Place = { readonly anchor: Anchor; readonly side: -1 | 1; readonly dislike: number };

const SHIFTS = [0, -12, 12, -24, 24, -36, 36, -48, 48];
/** Dislike of each pixel that a label stands away from the middle of its part. */
const SHIFT_DISLIKE = 25;

/** Beside the body of a part on a line: above and below a level part, right and left of an upright one. */
function linePlaces(part: Extract<BoardPart, { readonly shape: "line" }>): readonly Place[] {
  const frame = lineFrame(part.from, part.to);
  const reach = bodyWidth(part.kind, frame.length) + GAP;
  return part.from.y === part.to.y ? levelPlaces(frame, reach) : uprightPlaces(frame, reach);
}

function levelPlaces(frame: Frame, reach: number): readonly Place[] {
  const { x, y } = frame.at(0, 0);
  const half = (SIZE * LINE_HEIGHT) / 2;
  return ([-1, 1] as const).flatMap((side) =>
    SHIFTS.map((shift): Place => {
      const anchor: Anchor = { x: x + shift, y: y + side * (reach + half - 1), align: "middle" };
      return { anchor, side, dislike: SHIFT_DISLIKE * Math.abs(shift) + (side === 1 ? 400 : 0) };
    }),
  );
}

function uprightPlaces(frame: Frame, reach: number): readonly Place[] {
  const { x, y } = frame.at(0, 0);
  return ([1, -1] as const).flatMap((side) =>
    SHIFTS.map((shift): Place => {
      const anchor: Anchor = { x: x + side * reach, y: y + shift, align: side === 1 ? "start" : "end" };
      return { anchor, side, dislike: SHIFT_DISLIKE * Math.abs(shift) + (side === -1 ? 40 : 0) };
    }),
  );
}

function blockPlaces(part: Extract<BoardPart, { readonly shape: "block" }>): readonly Place[] {
  const { x, y } = spotOf(part.at);
  return [
    { anchor: { x, y: y - 54, align: "middle" }, side: -1, dislike: 0 },
    { anchor: { x, y: y + 54, align: "middle" }, side: 1, dislike: 100 },
    { anchor: { x: x + 56, y, align: "start" }, side: 1, dislike: 200 },
    { anchor: { x: x - 56, y, align: "end" }, side: -1, dislike: 200 },
  ];
}
