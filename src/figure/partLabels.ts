import { type BoardPart, type KindWithValue, shownValue } from "../../shared/board";
import type { Run, Tone } from "./figure";
import { type Frame, lineFrame, spotOf } from "./frame";
import type { LabelRequest } from "./labelPlacing";
import { bodyWidth, type SourceState } from "./symbols";
import { type Anchor, bold, LINE_HEIGHT, plain } from "./text";

const SIZE = 16;
const GAP = 8;

/** The request for a part's name and value beside its symbol. */
export function partLabel(part: BoardPart, state: SourceState, tone: Tone): LabelRequest {
  const lines = labelLines(part, state, tone);
  const oneLine = [lines.flatMap((runs, i) => (i === 0 ? runs : [plain("  "), ...runs]))];
  const anchors = part.shape === "line" ? lineAnchors(part) : blockAnchors(part);
  const candidates = anchors.map((anchor) => ({ anchor, lines: anchor.align === "middle" ? oneLine : lines }));
  // Where one line is too wide to fit above or below, two shorter ones may.
  const stacked = anchors
    .filter((anchor) => anchor.align === "middle")
    .map((anchor) => ({
      anchor: { ...anchor, y: anchor.y + Math.sign(anchor.side) * SIZE * LINE_HEIGHT * 0.5 },
      lines,
    }));
  return { candidates: [...candidates, ...stacked], size: SIZE, tone };
}

function labelLines(part: BoardPart, state: SourceState, tone: Tone): readonly (readonly Run[])[] {
  const style = typeof tone === "number" ? bold : plain;
  if (state === "zeroed") {
    return [[style(`${part.name} zeroed`)], [plain(part.kind === "voltage-source" ? "a short" : "an open")]];
  }
  const value = "value" in part ? shownValue(part.kind as KindWithValue, part.value) : "";
  return value === "" ? [[style(part.name)]] : [[style(part.name)], [style(value)]];
}

type SidedAnchor = Anchor & { readonly side: number };

/** Beside the body of a part on a line: above and below a level part, right and left of an upright one. */
function lineAnchors(part: Extract<BoardPart, { readonly shape: "line" }>): readonly SidedAnchor[] {
  const frame = lineFrame(part.from, part.to);
  const reach = bodyWidth(part.kind, frame.length) + GAP;
  return part.from.y === part.to.y ? levelAnchors(frame, reach) : uprightAnchors(frame, reach);
}

function levelAnchors(frame: Frame, reach: number): readonly SidedAnchor[] {
  const { x, y } = frame.at(0, 0);
  const half = (SIZE * LINE_HEIGHT) / 2;
  const shifts = [0, -24, 24, -48, 48];
  return [-1, 1].flatMap((side) =>
    shifts.map((shift) => ({ x: x + shift, y: y + side * (reach + half - 3), align: "middle" as const, side })),
  );
}

function uprightAnchors(frame: Frame, reach: number): readonly SidedAnchor[] {
  const { x, y } = frame.at(0, 0);
  const shifts = [0, -24, 24, -44, 44];
  const sides = [
    { align: "start" as const, side: 1 },
    { align: "end" as const, side: -1 },
  ];
  return shifts.flatMap((shift) =>
    sides.map(({ align, side }) => ({ x: x + side * reach, y: y + shift, align, side })),
  );
}

function blockAnchors(part: Extract<BoardPart, { readonly shape: "block" }>): readonly SidedAnchor[] {
  const { x, y } = spotOf(part.at);
  return [
    { x, y: y - 54, align: "middle", side: -1 },
    { x, y: y + 54, align: "middle", side: 1 },
    { x: x + 56, y, align: "start", side: 1 },
    { x: x - 56, y, align: "end", side: -1 },
  ];
}
