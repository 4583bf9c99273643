import type { Step } from "./chains";
import { labelWidth, symbolHalf } from "./labels";
import { type Marks, marksOn } from "./marks";
import type { Plan } from "./plan";
import type { Arc, Column, Rail, Table } from "./table";

/** Length of a part with two terminals, in grid steps. */
export const PART_LENGTH = 4;

/** The columns between which the parts of a level edge lie, and the steps of wire kept free at either end. */
export type Slot = { readonly first: number; readonly last: number; readonly before: 0 | 1; readonly after: 0 | 1 };
export type SpacedRail = Rail & { readonly slot: Slot };
/** An arc with the columns of its ends; plain wire needs no slot. */
export type SpacedArc = Arc & { readonly from: number; readonly to: number; readonly slot: Slot | null };
/** The grid column of each column of the table, and where level edges have room for their parts. */
export type Spacing = {
  readonly x: readonly number[];
  readonly rails: readonly SpacedRail[];
  readonly arcs: readonly SpacedArc[];
};

/** Room that the mark of a wanted or followed quantity takes beside its part. */
const MARK = 2;
const CLEARANCE = 0.3;

/** Gives columns their places on the grid, with room for symbols, labels and marks: `marks` says how many arrows and signs stand beside each part. */
export function spacingOf(plan: Plan, table: Table, marks: Marks): Spacing {
  const widths = table.columns.map(() => 2);
  const widen = ({ first, last, before, after }: Slot, room: number) => {
    const missing = room + before + after - total(widths.slice(first, last));
    const middle = (first + last - 1) >> 1;
    if (missing > 0) widths[middle] = (widths[middle] ?? 0) + missing;
  };
  const roomFor = (edge: number) => roomOf(plan.edges[edge]?.steps ?? [], marks);
  for (const { pin } of table.blocks) widen({ first: pin, last: pin + 1, before: 0, after: 0 }, PART_LENGTH);
  const degrees = degreesOf(plan);
  const rails = table.rails.map((rail): SpacedRail => {
    const slot = railSlot(table, rail, degrees);
    if (roomFor(rail.edge) > 0) widen(slot, roomFor(rail.edge));
    return { ...rail, slot };
  });
  const isTall = tallColumns(table);
  const arcs = table.arcs.map((arc): SpacedArc => {
    const range = columnsOf(table, arc);
    const room = roomFor(arc.edge);
    if (room === 0) return { ...arc, ...range, slot: null };
    const slot = arcSlot(widths, isTall, range, room);
    widen(slot, room);
    return { ...arc, ...range, slot };
  });
  return { x: placedColumns(plan, table, widths, marks), rails, arcs };
}

const total = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0);

/** Grid steps that parts in series take along a level line, their labels above them. */
export function roomOf(steps: readonly Step[], marks: Marks): number {
  return total(steps.map((step) => pitchOf(step, marks)));
}

/** Grid steps from one level part to the next; even, so that parts stay on the grid. */
export function pitchOf({ part }: Step, marks: Marks): number {
  const label = Math.ceil(labelWidth(part) + 2 * CLEARANCE);
  return Math.max(PART_LENGTH + (marksOn(part.id, marks) > 0 ? MARK : 0), label + (label % 2));
}

/** Where more than two ends meet on a bar, a step of wire keeps the rail's parts clear of the join. */
function railSlot(table: Table, { left, right }: Rail, degrees: readonly number[]): Slot {
  const isMeeting = (vertex: number) => (degrees[vertex] ?? 0) > 2;
  const first = table.bars.get(left)?.last ?? 0;
  const isForeign = table.bars.get(right)?.first !== first + 1;
  return { first, last: first + 1, before: isMeeting(left) ? 1 : 0, after: isForeign || isMeeting(right) ? 1 : 0 };
}

/** How many edges end on each bar. */
function degreesOf({ vertices, edges }: Plan): readonly number[] {
  const degrees = vertices.map(() => 0);
  for (const { from, to } of edges) for (const end of [from, to]) degrees[end] = (degrees[end] ?? 0) + 1;
  return degrees;
}

function columnsOf({ bars }: Table, { left, right }: Arc): { readonly from: number; readonly to: number } {
  const [a, b] = [bars.get(left)?.riseRight ?? 0, bars.get(right)?.riseLeft ?? 0];
  return { from: Math.min(a, b), to: Math.max(a, b) };
}

/** Columns in which something goes up to where arcs run. */
function tallColumns(table: Table): readonly boolean[] {
  const isTall = table.columns.map(({ up, drop }) => up !== null || drop !== null);
  for (const arc of table.arcs) for (const column of Object.values(columnsOf(table, arc))) isTall[column] = true;
  return isTall;
}

/**
 * The slot that needs least widening for an arc's parts, the middle one of several. A part must neither lie over a
 * tall column nor touch one with a terminal, except the arc's own.
 */
function arcSlot(
  widths: readonly number[],
  isTall: readonly boolean[],
  { from, to }: { readonly from: number; readonly to: number },
  room: number,
): Slot {
  let [found, least]: [Slot, number] = [{ first: from, last: to, before: 0, after: 0 }, Number.POSITIVE_INFINITY];
  let [first, width] = [from, 0];
  for (let last = from + 1; last <= to; last += 1) {
    width += widths[last - 1] ?? 0;
    if (last < to && !isTall[last]) continue;
    const slot: Slot = { first, last, before: first === from ? 0 : 1, after: last === to ? 0 : 1 };
    const missing = room + slot.before + slot.after - width;
    const cost = Math.max(0, missing) + Math.abs(first + last - from - to) / (to - from + 1);
    if (cost < least) [found, least] = [slot, cost];
    [first, width] = [last, 0];
  }
  return found;
}

type Side = "down" | "up";

function placedColumns(plan: Plan, table: Table, widths: readonly number[], marks: Marks): readonly number[] {
  const pins = new Set(table.blocks.flatMap(({ pin }) => [pin, pin + 1]));
  // A column without an edge is a bar's corner or end, and a terminal's column has a body beside it.
  const isFull = (column: Column, i: number) =>
    pins.has(i) || (column.down === null && column.up === null && column.drop === null);
  const x: number[] = [];
  const before: Record<Side, { x: number; steps: readonly Step[] } | null> = { down: null, up: null };
  table.columns.forEach((column, i) => {
    let here = i === 0 ? 0 : (x[i - 1] ?? 0) + (widths[i - 1] ?? 0);
    const sides = (["down", "up"] as const).filter((side) => edgeAt(column, side) !== null || isFull(column, i));
    const stepsAt = (side: Side) => plan.edges[edgeAt(column, side) ?? -1]?.steps ?? [];
    for (const side of sides) {
      const left = before[side];
      if (left) here = Math.max(here, left.x + distance(left.steps, stepsAt(side), marks));
    }
    for (const side of sides) before[side] = { x: here, steps: stepsAt(side) };
    x.push(here);
  });
  return x;
}

function edgeAt({ down, up, drop }: Column, side: Side): number | null {
  return drop ?? (side === "down" ? down : up);
}

/** Grid steps between two upright lines of parts beside each other. */
function distance(left: readonly Step[], right: readonly Step[], marks: Marks): number {
  const half = (steps: readonly Step[]) => Math.max(0, ...steps.map(({ part }) => symbolHalf(part)));
  const label = Math.max(0, ...left.map(({ part }) => labelWidth(part)));
  // The first mark of a part stands to its left, a second one to its right.
  const most = (steps: readonly Step[]) => Math.max(0, ...steps.map(({ part }) => marksOn(part.id, marks)));
  const marked = (most(right) > 0 ? MARK : 0) + (most(left) > 1 ? MARK : 0);
  const needed = Math.ceil(half(left) + CLEARANCE + label + CLEARANCE + marked + half(right));
  return Math.max(left.length > 0 && right.length > 0 ? PART_LENGTH : 2, needed);
}
