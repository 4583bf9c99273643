import type { Drawing, PartId, Placement, Point } from "../circuit";
import { reversedSteps, type Step } from "./chains";
import type { Marks } from "./marks";
import type { Net, Network } from "./network";
import type { Edge, Element, Plan } from "./plan";
import { type Rows, rowsOf } from "./rows";
import { PART_LENGTH, pitchOf, type Slot, type SpacedArc, type SpacedRail, type Spacing, spacingOf } from "./spacing";
import { type Bar, type Table, tableOf } from "./table";
import { joinedWires, type WirePiece } from "./wires";

/** A drawing, and how many edges in it go over the rail. */
export type Drawn = { readonly drawing: Drawing; readonly arcs: number };

/** Draws a plan whose elements have been ordered. Placements come in the order of `parts`. */
export function drawn(
  network: Network,
  plan: Plan,
  elements: readonly Element[],
  parts: readonly PartId[],
  marks: Marks,
): Drawn {
  const table = tableOf(plan, elements, marks);
  const spacing = spacingOf(plan, table, marks);
  const rows = rowsOf(plan, table, spacing, { reference: network.reference, hasValues: marks.hasValues });
  const pen = new Pen(plan, table, spacing, rows, marks);
  pen.drawBars();
  pen.drawUprights();
  for (const rail of spacing.rails) pen.drawRail(rail);
  spacing.arcs.forEach((arc, i) => {
    pen.drawArc(arc, rows.tracks[i] ?? 0);
  });
  pen.drawBlocks();
  const placements = parts.flatMap((part) => pen.placements.get(part) ?? []);
  const reference = pen.referencePoint(network.reference);
  return { drawing: { placements, wires: joinedWires(pen.pieces), reference }, arcs: spacing.arcs.length };
}

class Pen {
  readonly pieces: WirePiece[] = [];
  readonly placements = new Map<PartId, Placement>();
  readonly #plan: Plan;
  readonly #table: Table;
  readonly #spacing: Spacing;
  readonly #rows: Rows;
  readonly #marks: Marks;

  constructor(plan: Plan, table: Table, spacing: Spacing, rows: Rows, marks: Marks) {
    this.#plan = plan;
    this.#table = table;
    this.#spacing = spacing;
    this.#rows = rows;
    this.#marks = marks;
  }

  /** The level wires of all bars, on the rail, above and below it. */
  drawBars(): void {
    for (const [vertex, bar] of this.#table.bars) this.#level(this.#net(vertex), bar.offset, bar.first, bar.last);
    for (const rows of [this.#rows.raised, this.#rows.bottoms]) {
      for (const [vertex, row] of rows) {
        const { first, last } = this.#rows.ranges.get(vertex) ?? { first: 0, last: 0 };
        this.#level(this.#net(vertex), row, first, last);
      }
    }
  }

  /** What hangs from the rail, stands on it, or passes it. */
  drawUprights(): void {
    const { upper, lowest } = this.#rows;
    this.#table.columns.forEach(({ down, up, drop }, column) => {
      if (down !== null) {
        const edge = this.#edge(down);
        const bar = this.#bar(edge.from);
        this.#upright(edge, column, bar.offset, this.#rowOf(edge.to), { low: bar.clear, high: lowest });
      }
      if (up !== null) {
        const edge = this.#edge(up);
        this.#upright(edge, column, this.#rowOf(edge.from), this.#bar(edge.to).offset, {
          low: upper.top,
          high: upper.bottom,
        });
      }
      if (drop === null) return;
      const edge = this.#edge(drop);
      this.#upright(edge, column, this.#rowOf(edge.from), this.#rowOf(edge.to), this.#dropRoom(column));
    });
  }

  drawRail({ edge: index, left, right, slot }: SpacedRail): void {
    const [a, b] = [this.#bar(left), this.#bar(right)];
    const steps = this.#stepsFrom(left, index);
    const room = this.#room(slot);
    this.#line(steps, left, { from: this.#x(a.last), to: this.#x(b.first), room, at: (x) => [x, a.offset] });
  }

  drawArc({ edge: index, left, right, from, to, slot }: SpacedArc, row: number): void {
    // Bars beside a block share columns, so that the right one may rise to the left of the other.
    const [near, far] = this.#bar(left).riseRight === from ? [left, right] : [right, left];
    const ends = [
      { vertex: near, x: this.#x(from) },
      { vertex: far, x: this.#x(to) },
    ];
    for (const { vertex, x } of ends) this.#piece(this.#net(vertex), [x, this.#bar(vertex).offset], [x, row]);
    const room = slot ? this.#room(slot) : { low: 0, high: 0 };
    this.#line(this.#stepsFrom(near, index), near, { from: this.#x(from), to: this.#x(to), room, at: (x) => [x, row] });
  }

  drawBlocks(): void {
    for (const { element, pin, offset } of this.#table.blocks) {
      const { part } = element.block;
      const at: Point = [this.#x(pin) + 2, offset];
      // A step of wire covers what a wider zone leaves between body and column.
      const right = this.#x(pin + 1);
      const isAmplifier = part.kind === "ideal-opamp";
      const rows = isAmplifier ? [offset] : [offset - 1, offset + 1];
      const pins = isAmplifier ? [2] : [2, 3];
      rows.forEach((row, i) => {
        this.#piece(element.block.pins[pins[i] ?? 0] ?? 0, [at[0] + 2, row], [right, row]);
      });
      this.placements.set(part.id, { part: part.id, shape: "body", at, turn: 0, flip: false });
    }
  }

  /** On the bottom bar of the reference node, at the column of its parts that is nearest to the middle. */
  referencePoint(reference: Net | null): Point | null {
    const vertex = [...this.#rows.bottoms.keys()].find((bottom) => this.#net(bottom) === reference);
    if (vertex === undefined) return null;
    const reaches = (edge: number | null) => edge !== null && this.#edge(edge).to === vertex;
    const xs = this.#table.columns.flatMap(({ down, drop }, i) => (reaches(down) || reaches(drop) ? [this.#x(i)] : []));
    const middle = ((xs[0] ?? 0) + (xs.at(-1) ?? 0)) / 2;
    const nearest = xs.reduce((a, b) => (Math.abs(b - middle) < Math.abs(a - middle) ? b : a));
    return [nearest, this.#rowOf(vertex)];
  }

  #upright(edge: Edge, column: number, from: number, to: number, room: Room): void {
    const x = this.#x(column);
    this.#line(edge.steps, edge.from, { from, to, room, at: (y) => [x, y] });
  }

  /** Parts in series with the wires between them, along one line of the grid. */
  #line(steps: readonly Step[], vertex: number, { from, to, room, at }: Line): void {
    const isUpright = at(0)[0] === at(1)[0];
    const pitchOn = (step: Step) => (isUpright ? PART_LENGTH : pitchOf(step, this.#marks));
    const length = steps.reduce((sum, step) => sum + pitchOn(step), 0);
    let begin = room.low + Math.floor((room.high - room.low - length) / 2);
    let [net, here] = [this.#net(vertex), from];
    for (const step of steps) {
      const start = begin + (pitchOn(step) - PART_LENGTH) / 2;
      const end = start + PART_LENGTH;
      this.#piece(net, at(here), at(start));
      const [plus, minus] = step.isForward ? [start, end] : [end, start];
      this.placements.set(step.part.id, { part: step.part.id, shape: "line", from: at(plus), to: at(minus) });
      [net, here, begin] = [step.after, end, begin + pitchOn(step)];
    }
    this.#piece(net, at(here), at(to));
  }

  /** Where nothing on the rail lies in a drop's column, its parts may stand in the middle of its whole height. */
  #dropRoom(column: number): Room {
    const { lowest, railEnd, upper } = this.#rows;
    const isOver = (first: number, last: number) => first <= column && column <= last;
    const isCrossed =
      [...this.#table.bars.values()].some(({ first, last }) => isOver(first, last)) ||
      this.#table.rails.some(({ left, right }) => isOver(this.#bar(left).last, this.#bar(right).first)) ||
      this.#spacing.arcs.some(({ from, to }) => isOver(from, to));
    return { low: isCrossed ? railEnd : upper.top, high: lowest };
  }

  #room({ first, last, before, after }: Slot): Room {
    return { low: this.#x(first) + before, high: this.#x(last) - after };
  }

  #stepsFrom(vertex: number, index: number): readonly Step[] {
    const edge = this.#edge(index);
    return edge.from === vertex ? edge.steps : reversedSteps(this.#net(edge.from), edge.steps);
  }

  #level(net: Net, row: number, first: number, last: number): void {
    this.#piece(net, [this.#x(first), row], [this.#x(last), row]);
  }

  #piece(net: Net, from: Point, to: Point): void {
    if (from[0] !== to[0] || from[1] !== to[1]) this.pieces.push({ net, from, to });
  }

  #x(column: number): number {
    return this.#spacing.x[column] ?? 0;
  }

  #net(vertex: number): Net {
    return this.#plan.vertices[vertex]?.net ?? -1;
  }

  #bar(vertex: number): Bar {
    const bar = this.#table.bars.get(vertex);
    if (!bar) throw new Error(`no bar for vertex ${vertex} of ${this.#plan.vertices.length}`);
    return bar;
  }

  #edge(index: number): Edge {
    const edge = this.#plan.edges[index];
    if (!edge) throw new Error(`no edge ${index} among ${this.#plan.edges.length}`);
    return edge;
  }

  #rowOf(vertex: number): number {
    return this.#rows.raised.get(vertex) ?? this.#rows.bottoms.get(vertex) ?? 0;
  }
}

type Room = { readonly low: number; readonly high: number };
/** A line of the grid along which `from`, `to` and the room for parts count. */
type Line = {
  readonly from: number;
  readonly to: number;
  readonly room: Room;
  readonly at: (along: number) => Point;
};
