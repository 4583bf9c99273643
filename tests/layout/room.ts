import type { Circuit, Drawing, Part, Placement, Point } from "../../shared/circuit";
import { writeQuantity, writeSourceValue } from "../../shared/quantity";
import { joinedPoints, placedTerminals, type Segment, segmentsOf } from "./geometry";

// What takes room in a drawing, and what must not share it. Written from what figures look like, not from the layout.

type Box = { readonly left: number; readonly right: number; readonly top: number; readonly bottom: number };

function boxOf([x1, y1]: Point, [x2, y2]: Point): Box {
  return { left: Math.min(x1, x2), right: Math.max(x1, x2), top: Math.min(y1, y2), bottom: Math.max(y1, y2) };
}

function grown({ left, right, top, bottom }: Box, dx: number, dy: number): Box {
  return { left: left - dx, right: right + dx, top: top - dy, bottom: bottom + dy };
}

/** Whether two boxes share more than an edge; a line is in a box where it lies strictly between the sides. */
function overlap(a: Box, b: Box): boolean {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}

const isUpright = (each: Placement) => each.shape === "line" && each.from[0] === each.to[0];
const isRound = (part: Part) => /source|vcvs|vccs|ccvs|cccs/.test(part.kind);

/** Half the width of a symbol on a line: circles and rhombi are about 2 steps wide, the others about 1. */
const halfWidth = (part: Part) => (isRound(part) ? 0.95 : part.kind === "wire" ? 0 : 0.5);

/** The symbol's body, without the leads. */
function symbolBox(part: Part, placement: Placement): Box {
  if (placement.shape === "body") return grown(boxOf(placement.at, placement.at), 1.5, 1.5);
  const box = boxOf(placement.from, placement.to);
  return isUpright(placement) ? grown(box, halfWidth(part), -0.8) : grown(box, -0.8, halfWidth(part));
}

/** Room that name and value take on two lines or three, in grid steps; letters of long lines even out. */
function labelSize(part: Part): { readonly width: number; readonly height: number } {
  const lines = [part.id, ...valueText(part).split(" @ ")];
  const letters = Math.max(...lines.map((line) => line.length));
  return { width: 0.55 * Math.min(letters, 8) + 0.4 * Math.max(0, letters - 8), height: 0.8 * lines.length };
}

function valueText(part: Part): string {
  switch (part.kind) {
    case "resistor":
      return writeQuantity(part.resistance, "Ω").text;
    case "capacitor":
      return writeQuantity(part.capacitance, "F").text;
    case "inductor":
      return writeQuantity(part.inductance, "H").text;
    case "voltage-source":
      return writeSourceValue(part.voltage, "V").text;
    case "current-source":
      return writeSourceValue(part.current, "A").text;
    default:
      return "";
  }
}

/** The label to the right of an upright part, above a level one. Wires and blocks have none in a place of its own. */
function labelBox(part: Part, placement: Placement): Box | null {
  if (placement.shape === "body" || part.kind === "wire") return null;
  const { width, height } = labelSize(part);
  const { from, to } = placement;
  const [x, y] = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
  const near = halfWidth(part) + 0.25;
  if (isUpright(placement))
    return { left: x + near, right: x + near + width, top: y - height / 2, bottom: y + height / 2 };
  return { left: x - width / 2, right: x + width / 2, top: y - near - height, bottom: y - near };
}

/** Parallel parts beside each other are 4 apart at least; others only must not overlap. */
function areApart([first, a]: Placed, [second, b]: Placed): boolean {
  const boxes = [symbolBox(first, a), symbolBox(second, b)] as const;
  if (overlap(...boxes)) return false;
  if (a.shape === "body" || b.shape === "body") return true;
  const lines = [boxOf(a.from, a.to), boxOf(b.from, b.to)] as const;
  if (isUpright(a) !== isUpright(b)) return true;
  return !overlap(isUpright(a) ? grown(lines[0], 3.99, -0.01) : grown(lines[0], -0.01, 3.99), lines[1]);
}

type Placed = readonly [Part, Placement];

/** Every overlap in a drawing, as sentences. */
export function overlapsIn(circuit: Circuit, drawing: Drawing): readonly string[] {
  const placed = circuit.parts.flatMap((part): readonly Placed[] => {
    const placement = drawing.placements.find((each) => each.part === part.id);
    return placement ? [[part, placement]] : [];
  });
  const segments = drawing.wires.flatMap(segmentsOf);
  const labels = placed.flatMap(([part, placement]) => {
    const box = labelBox(part, placement);
    return box ? [{ part, box }] : [];
  });
  return [
    ...pairs(placed).flatMap(([a, b]) => (areApart(a, b) ? [] : [`${a[0].id} and ${b[0].id} are too close`])),
    ...placed.flatMap(([part, placement]) => {
      const box = symbolBox(part, placement);
      const crossing = segments.find((segment) => overlap(grown(box, 0.01, 0.01), boxOf(...segment)));
      return crossing ? [`wire ${JSON.stringify(crossing)} lies over ${part.id}`] : [];
    }),
    ...labels.flatMap(({ part, box }) => [
      ...segments.flatMap((each) =>
        overlap(box, boxOf(...each)) ? [`wire ${JSON.stringify(each)} on ${part.id}'s label`] : [],
      ),
      ...placed.flatMap(([other, placement]) =>
        overlap(box, symbolBox(other, placement)) ? [`${other.id} lies on ${part.id}'s label`] : [],
      ),
    ]),
    ...pairs(labels).flatMap(([a, b]) =>
      overlap(a.box, b.box) ? [`labels of ${a.part.id} and ${b.part.id} overlap`] : [],
    ),
  ];
}

/** Wires along each other, and corners of one node's wire on another's, which look joined and are not. */
export function wireFaults(circuit: Circuit, drawing: Drawing): readonly string[] {
  const terminals = placedTerminals(circuit, drawing).map(({ at }) => at);
  const setOf = joinedPoints(drawing.wires, terminals);
  const segments = drawing.wires.flatMap((wire) =>
    segmentsOf(wire).map((segment) => ({ segment, set: setOf(wire[0] as Point) })),
  );
  return [
    ...pairs(segments).flatMap(([a, b]) =>
      runsAlong(a.segment, b.segment) ? [`${JSON.stringify(a.segment)} runs along ${JSON.stringify(b.segment)}`] : [],
    ),
    ...pairs(segments).flatMap(([a, b]) =>
      a.set !== b.set && touches(a.segment, b.segment)
        ? [`${JSON.stringify(a.segment)} touches ${JSON.stringify(b.segment)}`]
        : [],
    ),
  ];
}

function pairs<T>(items: readonly T[]): readonly (readonly [T, T])[] {
  return items.flatMap((a, i) => items.slice(i + 1).map((b) => [a, b] as const));
}

function runsAlong(a: Segment, b: Segment): boolean {
  const [p, q] = [boxOf(...a), boxOf(...b)];
  const sameColumn = p.left === p.right && q.left === q.right && p.left === q.left;
  const sameRow = p.top === p.bottom && q.top === q.bottom && p.top === q.top;
  return (sameColumn && p.top < q.bottom && q.top < p.bottom) || (sameRow && p.left < q.right && q.left < p.right);
}

/** Whether an end of one piece lies on the other; pieces that merely cross do not touch. */
function touches(a: Segment, b: Segment): boolean {
  const isOn = ([x, y]: Point, { left, right, top, bottom }: Box) => left <= x && x <= right && top <= y && y <= bottom;
  return a.some((end) => isOn(end, boxOf(...b))) || b.some((end) => isOn(end, boxOf(...a)));
}
