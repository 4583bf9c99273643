import {
  type BlockPart,
  type Board,
  type BoardPart,
  type BoardWanted,
  type EntryId,
  joinDots,
  type Point,
  partOfWanted,
  segmentsOf,
  terminalPoints,
} from "../../shared/board";
import type { ZeroingDecision } from "../../shared/check/judgeZeroing";
import type { NodeReport, PartReport } from "../../shared/solve/report";
import { boxAround, boxOfBoxes } from "./box";
import { drawControls } from "./controlMarks";
import { type Box, type Figure, GRID, type Label, type Stroke, stroke, type Tone } from "./figure";
import { blockFrame, circle, line, lineFrame, spotOf } from "./frame";
import type { SymbolSet } from "./ieeeSymbols";
import { LabelPlacer } from "./labelPlacing";
import { writeNodes } from "./nodeLabels";
import { type LabelState, partLabel } from "./partLabels";
import { referenceSymbol } from "./referenceSymbol";
import { BLOCK_BODY, bodyHalf, bodyWidth, partSymbol, type SourceState } from "./symbols";
import { writeCurrents } from "./valueMarks";
import { drawWanted, type Pen } from "./wantedMarks";

/** What of a circuit a figure shows. */
export type FigureView = {
  /** Names of the independent sources that act, the others being zeroed; null: all act. */
  readonly acting: ReadonlySet<string> | null;
  /**
   * What each source becomes, by its name, where that is for somebody to decide: these are drawn as it says, and those that
   * are to act are called so.
   */
  readonly becomes?: ReadonlyMap<string, ZeroingDecision> | null;
  /** Accent of each independent source, by its name. */
  readonly accents: ReadonlyMap<string, number>;
  /** Numbers of the addends that are shown, for the primes behind a wanted quantity's name; empty for the total. */
  readonly primes: readonly number[];
  /** The name of each wanted quantity, by its entry. */
  readonly wantedNames: ReadonlyMap<EntryId, string>;
  /** The wanted quantity that the figure is about; other currents and voltages are marked softly, the rest not. */
  readonly focus: EntryId | null;
  /** False for a thumbnail: symbols and wires alone. */
  readonly hasLabels: boolean;
  readonly nodeAt: (point: Point) => string | null;
  /** IEC 60617 where nothing is said. */
  readonly symbols?: SymbolSet;
  /** Values to write onto the drawing, null where they are turned off or not known. */
  readonly voltages: readonly NodeReport[] | null;
  readonly currents: readonly PartReport[] | null;
};

/** Draws a board as one view of it asks. The same board and view always give the same figure. */
export function buildFigure(board: Board, view: FigureView): Figure {
  const bodies = new Map<EntryId, Box>([
    ...board.parts.map((part) => [part.id, bodyBox(part)] as const),
    ...board.references.map((symbol) => [symbol.id, referenceBox(symbol.at)] as const),
  ]);
  const covered = obstaclesOf(board, bodies);
  const placer = new LabelPlacer(covered);
  const strokes: Stroke[] = [
    ...board.wires.map((wire) => stroke(line(...wire.points.map(spotOf)))),
    ...board.parts.flatMap((part) => partSymbol(part, stateOf(part, view), toneOf(part, view), view.symbols)),
    ...board.references.flatMap((symbol) => referenceSymbol(symbol.at)),
    ...joinDots(board).map((point) => stroke(circle(spotOf(point), 4), "ink", 1, { fill: "tone" })),
  ];
  if (view.hasLabels) strokes.push(...labelEverything(board, view, placer));
  const { labels, leaders } = placer.settle();
  return {
    strokes: [...strokes, ...leaders],
    labels,
    bodies,
    marks: placer.marks,
    covered: [...covered, ...placer.marks, ...labels.map((label) => label.box)],
    extent: extentOf(board, bodies, labels),
  };
}

function labelEverything(board: Board, view: FigureView, placer: LabelPlacer): readonly Stroke[] {
  const pen: Pen = { board, tone: wantedTone(view), primes: view.primes, placer, entry: null };
  const softPen: Pen = { ...pen, tone: "soft", primes: [] };
  const inFocus = board.wanted.filter((wanted) => wanted.id === view.focus);
  const others = board.wanted.filter((wanted) => wanted.id !== view.focus && hasDirection(wanted));
  const nameOf = (wanted: BoardWanted) => view.wantedNames.get(wanted.id) ?? wanted.name ?? "";
  const marks = [
    ...inFocus.flatMap((wanted) => drawWanted(wanted, nameOf(wanted), { ...pen, entry: partOfWanted(wanted) })),
    ...others.flatMap((wanted) => drawWanted(wanted, nameOf(wanted), { ...softPen, entry: partOfWanted(wanted) })),
  ];
  const controls = drawControls(softPen);
  for (const part of board.parts) placer.place(partLabel(part, board, labelState(part, view), toneOf(part, view)));
  const told = new Set(inFocus.flatMap((wanted) => (wanted.kind === "current" ? [wanted.part] : [])));
  writeNodes(board, view.nodeAt, view.voltages, placer);
  const currents = view.currents ? writeCurrents(board, view.currents, told, placer) : [];
  return [...marks, ...controls, ...currents];
}

/** Whether a quantity is counted in a direction, so that others lean on its mark. */
function hasDirection(wanted: BoardWanted): boolean {
  return wanted.kind === "current" || wanted.kind === "voltage";
}

function stateOf(part: BoardPart, view: FigureView): SourceState {
  if (view.becomes) {
    const decision = view.becomes.get(part.name) ?? "kept";
    return decision === "kept" ? "acting" : decision;
  }
  if (!view.acting || view.acting.has(part.name)) return "acting";
  if (part.kind === "voltage-source") return "short";
  return part.kind === "current-source" ? "open" : "acting";
}

/** What is said of a source at its symbol: while it is for somebody to decide, which are to act, and no word of zeroing. */
function labelState(part: BoardPart, view: FigureView): LabelState {
  const state = stateOf(part, view);
  if (!view.becomes) return state === "acting" ? "plain" : `zeroed ${state}`;
  if (state !== "acting") return state;
  return view.acting?.has(part.name) ? "acts" : "plain";
}

function toneOf(part: BoardPart, view: FigureView): Tone {
  const isSource = part.kind === "voltage-source" || part.kind === "current-source";
  return (isSource ? view.accents.get(part.name) : undefined) ?? "ink";
}

/** In one source's circuit the wanted quantity is that source's part of it, and takes its accent. */
function wantedTone(view: FigureView): Tone {
  const [only, ...others] = view.acting ?? [];
  return only !== undefined && others.length === 0 ? (view.accents.get(only) ?? "ink") : "ink";
}

function bodyBox(part: BoardPart): Box {
  if (part.shape === "block") {
    const [frame, { half, width }] = [blockFrame(part), BLOCK_BODY[part.kind]];
    return boxAround([frame.at(-half, -width), frame.at(half, width)]);
  }
  const frame = lineFrame(part.from, part.to);
  const [half, width] = [bodyHalf(part.kind, frame.length), bodyWidth(part.kind, frame.length)];
  return boxAround([frame.at(-half, -width), frame.at(half, width)], 2);
}

function referenceBox(at: Point): Box {
  const { x, y } = spotOf(at);
  return { x: x - 16, y, width: 32, height: 32 };
}

/** From each terminal of a block to below or above its middle, inside its body. */
function blockLeads(part: BlockPart): readonly (readonly [Point, Point])[] {
  const isLevel = part.turn === 0 || part.turn === 180;
  return terminalPoints(part).map((p) => [p, isLevel ? { x: part.at.x, y: p.y } : { x: p.x, y: part.at.y }] as const);
}

/** Everything that a label must keep clear of: bodies, and wires and leads as thin boxes, and polarity signs. */
function obstaclesOf(board: Board, bodies: ReadonlyMap<EntryId, Box>): readonly Box[] {
  const wires = board.wires.flatMap((wire) => segmentsOf(wire.points));
  const leads = board.parts.flatMap((part) =>
    part.shape === "line" ? [[part.from, part.to] as const] : blockLeads(part),
  );
  const signs = board.parts.flatMap((part) => {
    if (part.kind !== "voltage-source" && part.kind !== "vcvs" && part.kind !== "ccvs") return [];
    const frame = lineFrame(part.from, part.to);
    const half = bodyHalf(part.kind, frame.length) + 9;
    return [boxAround([frame.at(-half, -11)], 7), boxAround([frame.at(half, -11)], 7)];
  });
  return [...bodies.values(), ...[...wires, ...leads].map(([a, b]) => boxAround([spotOf(a), spotOf(b)], 3)), ...signs];
}

function extentOf(board: Board, bodies: ReadonlyMap<EntryId, Box>, labels: readonly Label[]): Box {
  const points = [...board.wires.flatMap((wire) => wire.points), ...board.parts.flatMap(terminalPoints)];
  const drawn = boxAround(points.map(spotOf));
  const boxes = [...(points.length > 0 ? [drawn] : []), ...bodies.values(), ...labels.map((label) => label.box)];
  return boxes.length > 0 ? boxOfBoxes(boxes) : { x: 0, y: 0, width: 20 * GRID, height: 12 * GRID };
}
