import type { Board, EntryId } from "../../shared/board";
import type { PartReport } from "../../shared/solve/report";
import { boxAround } from "./box";
import { type Stroke, stroke, type Tone } from "./figure";
import { arrowHead, type Frame, line, lineFrame } from "./frame";
import type { LabelPlacer, LabelRequest } from "./labelPlacing";
import { bodyHalf } from "./symbols";
import { type Anchor, plain } from "./text";

const SIZE = 13;
const TONE: Tone = "soft";

/**
 * Draws the current of each part on a line as an arrow in the direction in which it really flows, with its size. Parts
 * in `passed` say their current elsewhere.
 */
export function writeCurrents(
  board: Board,
  parts: readonly PartReport[],
  passed: ReadonlySet<EntryId>,
  placer: LabelPlacer,
): readonly Stroke[] {
  const currents = new Map(parts.map((part) => [part.part, part.current]));
  return board.parts.flatMap((part) => {
    const current = currents.get(part.name);
    // A current source says its current already, and where none flows there is no arrow to draw.
    if (part.shape !== "line" || part.kind === "current-source" || passed.has(part.id)) return [];
    if (!current || current.decimal === 0) return [];
    const frame = lineFrame(part.from, part.to);
    const isBackward = (current.decimal ?? 1) < 0;
    const text = current.decimal === null ? current.text : current.text.replace(/^−/, "");
    return currentOnLead(frame, bodyHalf(part.kind, frame.length), isBackward ? -1 : 1, text, placer);
  });
}

/** Length of a current's arrow, and how far it stands from its line. */
const ARROW = 22;
const AWAY = 10;

type ArrowPlace = { readonly s: number; readonly t: number; readonly request: LabelRequest };

/** On the lead before or behind the body, on whichever side arrow and text together cover least. */
function currentOnLead(
  frame: Frame,
  half: number,
  direction: 1 | -1,
  text: string,
  placer: LabelPlacer,
): readonly Stroke[] {
  const places = [1, -1].flatMap((end) =>
    [1, -1].map((side): ArrowPlace => {
      const [s, t] = [end * (half + ARROW / 2 + 5), side * AWAY];
      return { s, t, request: textBeside(frame, s, t, text) };
    }),
  );
  const boxOf = ({ s, t }: ArrowPlace) => boxAround([frame.at(s - ARROW / 2, t), frame.at(s + ARROW / 2, t)], 5);
  const cost = (place: ArrowPlace) => 2 * placer.covered(boxOf(place)) + placer.leastCovered(place.request);
  const { s, t, request } = places.reduce((best, place) => (cost(place) < cost(best) ? place : best));
  placer.block([boxAround([frame.at(s - ARROW / 2, t), frame.at(s + ARROW / 2, t)], 5)]);
  placer.place(request);
  const tip = s + (direction * ARROW) / 2;
  return [
    stroke(line(frame.at(s - (direction * ARROW) / 2, t), frame.at(tip - direction * 4, t)), TONE, 1.6),
    stroke(arrowHead(frame, tip, t, 9, direction), TONE, 1, { fill: "tone" }),
  ];
}

function textBeside(frame: Frame, s: number, t: number, text: string): LabelRequest {
  const middle = frame.at(s, t);
  const out = { x: middle.x - frame.at(s, 0).x, y: middle.y - frame.at(s, 0).y };
  const isLevel = Math.abs(out.x) < 1;
  const anchors: readonly Anchor[] = isLevel
    ? [0, 20, -20].map((shift) => ({ x: middle.x + shift, y: middle.y + Math.sign(out.y) * 13, align: "middle" }))
    : [0, 14, -14].map((shift) => ({
        x: middle.x + Math.sign(out.x) * 7,
        y: middle.y + shift,
        align: out.x > 0 ? "start" : "end",
      }));
  const lines = [[plain(text)]];
  return { candidates: anchors.map((anchor, i) => ({ anchor, lines, dislike: 60 * i })), size: SIZE, tone: TONE };
}
