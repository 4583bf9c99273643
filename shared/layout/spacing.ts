import type { PartId } from "../circuit";
import type { Step } from "./chains";
import { labelWidth, symbolHalf } from "./labels";
import type { Plan } from "./plan";
import type { Arc, Column, Rail, Table } from "./table";

/** Length of a part with two terminals, in grid steps. */
export const PART_LENGTH = 4;

/** The zone in which the parts of a level edge lie, and the steps of wire kept free at its ends. */
export type Slot = { readonly zone: number; readonly before: 0 | 1; readonly after: 0 | 1 };
export type SpacedRail = Rail & { readonly slot: Slot };
/** An arc with the columns of its ends; plain wire needs no slot. */
export type SpacedArc = Arc & { readonly from: number; readonly to: number; readonly slot: Slot | null };
/** The grid column of each column of the table, and where level edges have room for their parts. */
export type Spacing = {
  readonly x: readonly number[];
  readonly rails: readonly SpacedRail[];
  readonly arcs: readonly SpacedArc[];
};

/** Room that a wanted quantity's mark takes beside its part. */
const MARK = 2;
const CLEARANCE = 0.3;

/** Gives columns their places on the grid, with room for each part's symbol and for the label to its right. */
export function spacingOf(plan: Plan, table: Table, wanted: ReadonlySet<PartId>): Spacing {
  const widths = table.columns.map(() => 2);
  const widen = (zone: number, width: number) => {
    widths[zone] = Math.max(widths[zone] ?? 0, width);
  };
  for (const { pin } of table.blocks) widen(pin, PART_LENGTH);
  const degrees = degreesOf(plan);
  const roomFor = (edge: number) => roomOf(plan.edges[edge]?.steps ?? []);
  const rails = table.rails.map((rail): SpacedRail => {
    const slot = railSlot(table, rail, degrees);
    if (roomFor(rail.edge) > 0) widen(slot.zone, slotWidth(roomFor(rail.edge), slot));
    return { ...rail, slot };
  });
  const arcs = table.arcs.map((arc): SpacedArc => {
    const range = columnsOf(table, arc);
    const room = roomFor(arc.edge);
    if (room === 0) return { ...arc, ...range, slot: null };
    const slot = arcSlot(widths, range.from, range.to, room);
    widen(slot.zone, slotWidth(room, slot));
    return { ...arc, ...range, slot };
  });
  return { x: placedColumns(plan, table, widths, wanted), rails, arcs };
}

const slotWidth = (room: number, { before, after }: Slot) => room + before + after;

/** Grid steps that parts in series take along a level line, their labels above them. */
export function roomOf(steps: readonly Step[]): number {
  return steps.reduce((sum, step) => sum + pitchOf(step), 0);
}

/** Grid steps from one level part to the next; whole and even, so that parts stay on the grid. */
export function pitchOf({ part }: Step): number {
  const label = Math.ceil(labelWidth(part) + 2 * CLEARANCE);
  return Math.max(PART_LENGTH, label + (label % 2));
}

/** Where more than two ends meet on a bar, a step of wire keeps the rail's parts clear of the join. */
function railSlot(table: Table, { left, right, zone }: Rail, degrees: readonly number[]): Slot {
  const isMeeting = (vertex: number) => (degrees[vertex] ?? 0) > 2;
  const isForeign = table.bars.get(right)?.first !== zone + 1;
  return { zone, before: isMeeting(left) ? 1 : 0, after: isForeign || isMeeting(right) ? 1 : 0 };
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

/**
 * The slot that needs least widening for an arc's parts, the middle one of several. What passes in a column that is
 * not the arc's own must not touch a terminal.
 */
function arcSlot(widths: readonly number[], from: number, to: number, room: number): Slot {
  let [found, least]: [Slot, number] = [{ zone: from, before: 0, after: 0 }, Number.POSITIVE_INFINITY];
  for (let zone = from; zone < to; zone += 1) {
    const slot: Slot = { zone, before: zone === from ? 0 : 1, after: zone + 1 === to ? 0 : 1 };
    const fromMiddle = Math.abs(2 * zone + 1 - from - to) / (to - from + 1);
    const cost = Math.max(0, slotWidth(room, slot) - (widths[zone] ?? 0)) + fromMiddle;
    if (cost < least) [found, least] = [slot, cost];
  }
  return found;
}

type Side = "down" | "up";

function placedColumns(
  plan: Plan,
  table: Table,
  widths: readonly number[],
  wanted: ReadonlySet<PartId>,
): readonly number[] {
  const pins = new Set(table.blocks.flatMap(({ pin }) => [pin, pin + 1]));
  const x: number[] = [];
  const before: Record<Side, { x: number; steps: readonly Step[] } | null> = { down: null, up: null };
  table.columns.forEach((column, i) => {
    let here = i === 0 ? 0 : (x[i - 1] ?? 0) + (widths[i - 1] ?? 0);
    const sides = (["down", "up"] as const).filter((side) => edgeAt(column, side) !== null || pins.has(i));
    const stepsAt = (side: Side) => plan.edges[edgeAt(column, side) ?? -1]?.steps ?? [];
    for (const side of sides) {
      const left = before[side];
      if (left) here = Math.max(here, left.x + distance(left.steps, stepsAt(side), wanted));
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
function distance(left: readonly Step[], right: readonly Step[], wanted: ReadonlySet<PartId>): number {
  const half = (steps: readonly Step[]) => Math.max(0, ...steps.map(({ part }) => symbolHalf(part)));
  const label = Math.max(0, ...left.map(({ part }) => labelWidth(part)));
  const mark = right.some(({ part }) => wanted.has(part.id)) ? MARK : 0;
  const needed = Math.ceil(half(left) + CLEARANCE + label + CLEARANCE + mark + half(right));
  return Math.max(left.length > 0 && right.length > 0 ? PART_LENGTH : 2, needed);
}
