import type { Board, EntryId } from "../../shared/board";
import type { PartReport } from "../../shared/solve/report";
import { boxAround } from "./box";
import { type Spot, type Stroke, stroke, type Tone } from "./figure";
import { arrowHead, type Frame, line, lineFrame } from "./frame";
import type { LabelPlacer, LabelRequest } from "./labelPlacing";
import { bodyHalf } from "./symbols";
import { type Anchor, LINE_HEIGHT, valueVariants } from "./text";

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
/** Cost, in square pixels, of an arrow on the line itself, which is read less easily, and of one nearer the end. */
const ON_LINE = 260;
const OUTWARD = 30;

type ArrowPlace = { readonly s: number; readonly t: number; readonly dislike: number; readonly request: LabelRequest };

/** On the lead before or behind the body, on whichever side arrow and text together cover least; else on the line. */
function currentOnLead(
  frame: Frame,
  half: number,
  direction: 1 | -1,
  text: string,
  placer: LabelPlacer,
): readonly Stroke[] {
  const boxOf = ({ s, t }: ArrowPlace) => boxAround([frame.at(s - ARROW / 2, t), frame.at(s + ARROW / 2, t)], 5);
  const arrowCost = (place: ArrowPlace) => place.dislike + (place.t === 0 ? 0 : 3 * placer.covered(boxOf(place)));
  const textCost = (place: ArrowPlace) => placer.leastCovered(place.request);
  const best = cheapest(arrowPlaces(frame, half, text), arrowCost, textCost);
  const { s, t, request } = best;
  placer.block([boxOf(best)]);
  placer.place(request);
  const tip = s + (direction * ARROW) / 2;
  return [
    stroke(line(frame.at(s - (direction * ARROW) / 2, t), frame.at(tip - direction * 4, t)), TONE, 1.6),
    stroke(arrowHead(frame, tip, t, 9, direction), TONE, 1, { fill: "tone" }),
  ];
}

/** The place whose two costs add up to least; the second is only asked for where the first leaves it a chance. */
function cheapest<T>(places: readonly [T, ...T[]], first: (place: T) => number, second: (place: T) => number): T {
  let [best] = places;
  let least = Number.POSITIVE_INFINITY;
  for (const place of places) {
    const begun = first(place);
    if (begun >= least) continue;
    const cost = begun + second(place);
    if (cost < least) [best, least] = [place, cost];
  }
  return best;
}

function arrowPlaces(frame: Frame, half: number, text: string): readonly [ArrowPlace, ...ArrowPlace[]] {
  const place = (end: number, side: number, outward: number): ArrowPlace => {
    const [s, t] = [end * (half + ARROW / 2 + 5 + outward), side * AWAY];
    const dislike = (side === 0 ? ON_LINE : 0) + OUTWARD * (outward / 8);
    return { s, t, dislike, request: textBeside(frame, s, t, text) };
  };
  const others = [0, 8, 16].flatMap((outward) =>
    [1, -1].flatMap((end) => [1, -1, 0].map((side) => place(end, side, outward))),
  );
  return [place(1, 1, 0), ...others.slice(1)];
}

const SHIFTS = [0, 14, -14, 28, -28];

/** The value beside the arrow, on the side away from the line; for an arrow on the line, on either side. */
function textBeside(frame: Frame, s: number, t: number, text: string): LabelRequest {
  const middle = frame.at(s, t);
  const across = { x: frame.at(s, 1).x - frame.at(s, 0).x, y: frame.at(s, 1).y - frame.at(s, 0).y };
  const sides = t === 0 ? [1, -1] : [Math.sign(t)];
  const variants = valueVariants(text);
  const candidates = sides.flatMap((side) =>
    variants.flatMap((lines, k) =>
      SHIFTS.map((shift, i) => ({
        anchor: anchorBeside(middle, { x: side * across.x, y: side * across.y }, shift, (lines.length - 1) / 2),
        lines,
        dislike: 60 * i + 200 * k,
      })),
    ),
  );
  return { candidates, size: SIZE, tone: TONE, entry: null, about: middle };
}

/** `extra` is half of the lines that a text has beyond one. */
function anchorBeside(middle: Spot, out: Spot, shift: number, extra: number): Anchor {
  const isLevel = Math.abs(out.x) < 0.5;
  if (!isLevel) return { x: middle.x + Math.sign(out.x) * 8, y: middle.y + shift, align: out.x > 0 ? "start" : "end" };
  const away = 14 + extra * SIZE * LINE_HEIGHT;
  return { x: middle.x + 1.5 * shift, y: middle.y + Math.sign(out.y) * away, align: "middle" };
}
