import type { BlockPart, BoardPart, LinePart } from "../../shared/board";
import { unreachable } from "../../shared/quantity";
import { type Stroke, stroke, type Tone } from "./figure";
import {
  arrowHead,
  blockFrame,
  circle,
  closed,
  type Frame,
  humps,
  line,
  lineFrame,
  minusSign,
  plusSign,
} from "./frame";
import { amplifierTriangle, arrowInside, curvedPlates, type SymbolSet, signsInside, zigzag } from "./ieeeSymbols";

/** How a source is drawn: as it is, or as the short or the open that it becomes. */
export type SourceState = "acting" | "short" | "open";

/** Half the length of a symbol's body along its line, less on a short line. */
export function bodyHalf(kind: BoardPart["kind"], length: number): number {
  return Math.min(FULL_HALF[kind], length * 0.36);
}

/** Half the width of a symbol's body across its line. */
export function bodyWidth(kind: BoardPart["kind"], length: number): number {
  const half = bodyHalf(kind, length);
  if (kind === "resistor") return Math.min(9, half);
  if (kind === "capacitor") return Math.min(13, half * 2);
  if (kind === "inductor") return Math.min(9, half);
  if (kind === "switch") return 12;
  return half;
}

/** Half the length and width of a block's body. */
export const BLOCK_BODY: Readonly<Record<BlockPart["kind"], { readonly half: number; readonly width: number }>> = {
  "ideal-opamp": { half: 30, width: 42 },
  "ideal-transformer": { half: 24, width: 26 },
};

const FULL_HALF: Readonly<Record<BoardPart["kind"], number>> = {
  resistor: 27,
  capacitor: 4,
  inductor: 28,
  "voltage-source": 21,
  "current-source": 21,
  vcvs: 23,
  vccs: 23,
  ccvs: 23,
  cccs: 23,
  switch: 18,
  "ideal-opamp": 30,
  "ideal-transformer": 30,
};

/**
 * The symbol of a part. After IEC 60617 a rectangle is a resistor; a circle an independent source, its line passing
 * through for voltage and a bar across for current; a rhombus the same for a dependent source. After IEEE 315 a
 * zigzag is a resistor, and signs or an arrow inside the outline tell sources apart.
 */
export function partSymbol(part: BoardPart, state: SourceState, tone: Tone, set: SymbolSet = "iec"): readonly Stroke[] {
  return part.shape === "line" ? lineSymbol(part, state, tone, set) : blockSymbol(part, tone, set);
}

function lineSymbol(part: LinePart, state: SourceState, tone: Tone, set: SymbolSet): readonly Stroke[] {
  const frame = lineFrame(part.from, part.to);
  const half = bodyHalf(part.kind, frame.length);
  if (state === "short") return shortInPlace(frame, half, tone);
  if (state === "open") return openInPlace(frame, half, tone);
  switch (part.kind) {
    case "resistor": {
      const w = bodyWidth(part.kind, frame.length);
      const body =
        set === "ieee" ? stroke(zigzag(frame, half, w), tone) : stroke(box(frame, half, w), tone, 2, { fill: "paper" });
      return [...leads(frame, half, tone), body];
    }
    case "capacitor": {
      const w = bodyWidth(part.kind, frame.length);
      const straight = [-half, half].map((s) => line(frame.at(s, -w), frame.at(s, w))).join("");
      const plates = set === "ieee" ? curvedPlates(frame, half, w) : straight;
      return [...leads(frame, half, tone), stroke(plates, tone, 2.6)];
    }
    case "inductor": {
      const turns = [-1, -0.5, 0, 0.5, 1].map((share) => frame.at(share * half, 0));
      return [...leads(frame, half, tone), stroke(humps(turns, "left"), tone)];
    }
    case "voltage-source":
      return voltageSource(frame, half, tone, circleAt(frame, half), set);
    case "current-source":
      return currentSource(frame, half, tone, circleAt(frame, half), set);
    case "vcvs":
    case "ccvs":
      return voltageSource(frame, half, tone, rhombus(frame, half), set);
    case "vccs":
    case "cccs":
      return currentSource(frame, half, tone, rhombus(frame, half), set);
    case "switch":
      return switchSymbol(frame, half, part.state, tone);
    default:
      return unreachable(part);
  }
}

function leads(frame: Frame, half: number, tone: Tone): readonly Stroke[] {
  const end = frame.length / 2;
  const path = line(frame.at(-end, 0), frame.at(-half, 0)) + line(frame.at(half, 0), frame.at(end, 0));
  return [stroke(path, tone === "faint" ? tone : "ink")];
}

const box = (frame: Frame, half: number, w: number) =>
  closed(frame.at(-half, -w), frame.at(half, -w), frame.at(half, w), frame.at(-half, w));
const circleAt = (frame: Frame, half: number) => circle(frame.at(0, 0), half);
const rhombus = (frame: Frame, half: number) =>
  closed(frame.at(-half, 0), frame.at(0, -half * 0.8), frame.at(half, 0), frame.at(0, half * 0.8));

/** `plus` is at −s, so the plus sign stands there, beside the lead and clear of the body. */
function voltageSource(frame: Frame, half: number, tone: Tone, outline: string, set: SymbolSet): readonly Stroke[] {
  if (set === "ieee") return [...outlined(frame, half, tone, outline), ...signsInside(frame, half, tone)];
  const signs = plusSign(frame.at(-half - 9, -11)) + minusSign(frame.at(half + 9, -11));
  return [
    ...outlined(frame, half, tone, outline),
    stroke(line(frame.at(-half, 0), frame.at(half, 0)), tone, 2.2),
    stroke(signs, tone, 1.8),
  ];
}

function outlined(frame: Frame, half: number, tone: Tone, outline: string): readonly Stroke[] {
  return [...leads(frame, half, tone), stroke(outline, tone, 2.4, { fill: "paper" })];
}

/** The arrow on the lead shows where the source drives its current: out at `minus`, at +s. */
function currentSource(frame: Frame, half: number, tone: Tone, outline: string, set: SymbolSet): readonly Stroke[] {
  if (set === "ieee") return [...outlined(frame, half, tone, outline), ...arrowInside(frame, half, tone)];
  const across = outline.includes("A") ? half : half * 0.8;
  return [
    ...outlined(frame, half, tone, outline),
    stroke(line(frame.at(0, -across), frame.at(0, across)), tone, 2.2),
    stroke(arrowHead(frame, Math.min(half + 17, frame.length / 2 - 2), 0, 11), tone, 1, { fill: "tone" }),
  ];
}

function shortInPlace(frame: Frame, half: number, tone: Tone): readonly Stroke[] {
  const end = frame.length / 2;
  return [
    stroke(line(frame.at(-end, 0), frame.at(end, 0)), tone, 3.2),
    stroke(circleAt(frame, half), tone, 1.4, { dash: [3, 5] }),
  ];
}

function openInPlace(frame: Frame, half: number, tone: Tone): readonly Stroke[] {
  const ends = [-half, half].map((s) => circle(frame.at(s, 0), 3.5)).join("");
  return [
    ...leads(frame, half, tone),
    stroke(circleAt(frame, half), tone, 1.4, { dash: [3, 5] }),
    stroke(ends, tone, 2, { fill: "paper" }),
  ];
}

function switchSymbol(frame: Frame, half: number, state: "open" | "closed", tone: Tone): readonly Stroke[] {
  const contacts = [-half, half].map((s) => circle(frame.at(s, 0), 3)).join("");
  const blade = state === "closed" ? frame.at(half, 0) : frame.at(half * 0.8, -half * 0.8);
  return [
    ...leads(frame, half, tone),
    stroke(line(frame.at(-half, 0), blade), tone, 2.2),
    stroke(contacts, tone, 2, { fill: "paper" }),
  ];
}

function blockSymbol(part: BlockPart, tone: Tone, set: SymbolSet): readonly Stroke[] {
  const frame = blockFrame(part);
  return part.kind === "ideal-opamp" ? opAmp(frame, tone, set) : transformer(frame, tone);
}

/** A rectangle with a triangle in the direction of the signal and the sign of endless gain; or a large triangle. */
function opAmp(frame: Frame, tone: Tone, set: SymbolSet): readonly Stroke[] {
  const { half: w, width: h } = BLOCK_BODY["ideal-opamp"];
  const wires = [
    line(frame.at(-48, -24), frame.at(-w, -24)),
    line(frame.at(-48, 24), frame.at(-w, 24)),
    line(frame.at(w, 0), frame.at(48, 0)),
  ];
  const outline = closed(frame.at(-w, -h), frame.at(w, -h), frame.at(w, h), frame.at(-w, h));
  const inputs = stroke(minusSign(frame.at(-20, -24)) + plusSign(frame.at(-20, 24)), tone, 1.8);
  if (set === "ieee") {
    return [stroke(wires.join("")), stroke(amplifierTriangle(frame, w, h), tone, 2, { fill: "paper" }), inputs];
  }
  const gain = closed(frame.at(-9, -7), frame.at(3, 0), frame.at(-9, 7));
  const middle = frame.at(16, 0);
  const [left, right] = [
    { x: middle.x - 4.5, y: middle.y },
    { x: middle.x + 4.5, y: middle.y },
  ];
  return [
    stroke(wires.join("")),
    stroke(outline, tone, 2, { fill: "paper" }),
    stroke(gain + circle(left, 4) + circle(right, 4), tone, 1.5),
    inputs,
  ];
}

/** Two windings side by side, a dot at the end of each that is positive together with the other's. */
function transformer(frame: Frame, tone: Tone): readonly Stroke[] {
  const rows = [-24, -12, 0, 12, 24];
  const [left, right] = [-9, 9];
  const wires = [
    line(frame.at(-48, -24), frame.at(left, -24)),
    line(frame.at(-48, 24), frame.at(left, 24)),
    line(frame.at(48, -24), frame.at(right, -24)),
    line(frame.at(48, 24), frame.at(right, 24)),
  ];
  const isMirrored = crossSign(frame) < 0;
  const primary = humps(
    rows.map((t) => frame.at(left, t)),
    isMirrored ? "right" : "left",
  );
  const secondary = humps(
    rows.map((t) => frame.at(right, t)),
    isMirrored ? "left" : "right",
  );
  const dots = circle(frame.at(left - 9, -16), 2.6) + circle(frame.at(right + 9, -16), 2.6);
  return [stroke(wires.join("")), stroke(primary + secondary, tone), stroke(dots, tone, 1, { fill: "tone" })];
}

/** +1 where the frame turns as the page does, −1 where it is mirrored. */
function crossSign(frame: Frame): number {
  const [o, s, t] = [frame.at(0, 0), frame.at(1, 0), frame.at(0, 1)];
  return (s.x - o.x) * (t.y - o.y) - (s.y - o.y) * (t.x - o.x);
}
