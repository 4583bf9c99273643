import { isHighLabel } from "./labels";
import type { Net } from "./network";
import type { Plan } from "./plan";
import { PART_LENGTH, type SpacedArc, type Spacing } from "./spacing";
import type { Table } from "./table";

/** The grid row of everything level. The row of the rail itself is 0; rows count downwards. */
export type Rows = {
  /** Row of each arc's track, in the order of the arcs. */
  readonly tracks: readonly number[];
  /** Row of each raised bar and of each bottom bar, by vertex. */
  readonly raised: ReadonlyMap<number, number>;
  readonly bottoms: ReadonlyMap<number, number>;
  /** First and last column of each raised bar and of each bottom bar, by vertex. */
  readonly ranges: ReadonlyMap<number, Range>;
  /** Between which rows the parts of uprights may lie: above the rail, and the last row below it. */
  readonly upper: { readonly top: number; readonly bottom: number };
  readonly lowest: number;
  /** The row below which nothing of the rail lies. */
  readonly railEnd: number;
};
/** The net whose bar must be the lowest, and whether values stand beside the parts. */
type Wishes = { readonly reference: Net | null; readonly hasValues: boolean };
export type Range = { readonly first: number; readonly last: number };

/** Rows between one line and the next above it: where either has parts, over a block, between plain wires. */
const OVER_PARTS = 4;
const OVER_BLOCK = 3;
const OVER_WIRE = 2;
const BAR_DISTANCE = 2;
/** Rows between parts on a level line and parts above or below it, which keep the labels of the two apart. */
const LABEL_ROOM = 2;
/** Rows by which uprights are longer where currents stand beside their leads and voltages at their nodes. */
const VALUE_ROOM = 2;

export function rowsOf(plan: Plan, table: Table, { arcs, rails }: Spacing, { reference, hasValues }: Wishes): Rows {
  const offsets = [0, ...[...table.bars.values()].map(({ offset }) => offset)];
  const hasRailParts = rails.some(({ edge }) => stackHeight(plan, edge) > 0);
  const first = table.blocks.length > 0 ? OVER_BLOCK : OVER_WIRE;
  const tracks = trackRows(arcs, Math.min(...offsets), hasRailParts ? OVER_PARTS : first);
  const ranges = rangesOf(plan, table);
  const isReference = (vertex: number) => plan.vertices[vertex]?.net === reference;
  const layers = (level: 0 | 2) =>
    layered(
      [...ranges].filter(([vertex]) => plan.vertices[vertex]?.level === level),
      isReference,
    );
  const [raisedLayers, bottomLayers] = [layers(2), layers(0)];

  const railTop = Math.min(...tracks, ...offsets);
  const tallest = Math.max(0, ...plan.ups.flat().map((edge) => stackHeight(plan, edge)));
  const upper = { top: railTop, bottom: railTop };
  const raised = new Map<number, number>();
  if (raisedLayers.size > 0) {
    const above = Math.max(...raisedLayers.values()) > 0 ? 1 : 0;
    // What stands on a lower bar passes the bar above it, which no terminal may touch.
    const isPassing = [...table.bars].some(([vertex, { offset }]) => offset > railTop && plan.ups[vertex]?.length);
    const hasLevelParts = hasRailParts || arcs.some(({ slot }) => slot !== null);
    const below = hasLevelParts ? LABEL_ROOM : isPassing ? 1 : 0;
    upper.bottom = railTop - below;
    upper.top = upper.bottom - Math.max(tallest, PART_LENGTH) - (hasValues ? VALUE_ROOM : 0);
    for (const [vertex, layer] of raisedLayers) raised.set(vertex, upper.top - above - BAR_DISTANCE * layer);
  }
  const lower = lowerRows(plan, table, Math.max(...offsets), bottomLayers, hasValues ? VALUE_ROOM : 0);
  return { tracks, raised, ranges, upper, ...lower };
}

export function stackHeight(plan: Plan, edge: number): number {
  return PART_LENGTH * (plan.edges[edge]?.steps.length ?? 0);
}

function lowerRows(plan: Plan, table: Table, lowestBar: number, layers: ReadonlyMap<number, number>, room: number) {
  let lowest = Math.max(PART_LENGTH + room, lowestBar + 2);
  for (const [vertex, { clear }] of table.bars) {
    for (const edge of plan.downs[vertex] ?? []) {
      const isHigh = plan.edges[edge]?.steps.some(({ part }) => isHighLabel(part));
      lowest = Math.max(lowest, clear + stackHeight(plan, edge) + Math.max(isHigh ? LABEL_ROOM : 0, room));
    }
  }
  const railEnd = lowestBar + 1;
  for (const edge of plan.drops) lowest = Math.max(lowest, railEnd + stackHeight(plan, edge) + room);
  const gap = Math.max(0, ...layers.values()) > 0 ? 1 : 0;
  const bottoms = new Map([...layers].map(([vertex, layer]) => [vertex, lowest + gap + BAR_DISTANCE * layer] as const));
  return { bottoms, lowest, railEnd };
}

/** Rows of the arcs' tracks. */
function trackRows(arcs: readonly SpacedArc[], railTop: number, overRail: number): readonly number[] {
  const tracks = trackNumbers(arcs);
  const hasParts: boolean[] = [];
  arcs.forEach(({ slot }, i) => {
    const track = tracks[i] ?? 0;
    hasParts[track] = (hasParts[track] ?? false) || slot !== null;
  });
  const rows: number[] = [];
  let row = railTop;
  hasParts.forEach((parts, track) => {
    row -= parts || hasParts[track - 1] ? OVER_PARTS : track === 0 ? overRail : OVER_WIRE;
    rows.push(row);
  });
  return tracks.map((track) => rows[track] ?? railTop);
}

/**
 * Tracks of arcs, 0 the nearest to the rail. An arc lies over all shorter ones beneath it, so that no arc's ends cross
 * another arc without need; two share a track where they lie apart, or touch at the end of one bar.
 */
function trackNumbers(arcs: readonly SpacedArc[]): readonly number[] {
  const order = arcs.map((_, i) => i).sort((a, b) => span(arcs[a]) - span(arcs[b]) || a - b);
  const tracks = arcs.map(() => 0);
  // By place in the order. There may be thousands of arcs, each to be compared with all before it.
  const [from, to, track] = [new Int32Array(arcs.length), new Int32Array(arcs.length), new Int32Array(arcs.length)];
  order.forEach((i, place) => {
    const arc = arcs[i] as SpacedArc;
    let lowest = 0;
    for (let k = 0; k < place; k += 1) {
      const begin = from[k] as number;
      const end = to[k] as number;
      const other = track[k] as number;
      if (other < lowest || end < arc.from || arc.to < begin) continue;
      if ((end === arc.from || arc.to === begin) && sharesBar(arc, arcs[order[k] as number] as SpacedArc)) continue;
      lowest = other + 1;
    }
    [from[place], to[place], track[place], tracks[i]] = [arc.from, arc.to, lowest, lowest];
  });
  return tracks;
}

const span = (arc: SpacedArc | undefined) => (arc ? arc.to - arc.from : 0);

function sharesBar(a: SpacedArc, b: SpacedArc): boolean {
  return a.left === b.left || a.left === b.right || a.right === b.left || a.right === b.right;
}

/** The columns over which raised bars and bottom bars reach. */
function rangesOf(plan: Plan, table: Table): Map<number, Range> {
  const ranges = new Map<number, Range>();
  const reach = (vertex: number | undefined, column: number) => {
    if (vertex === undefined) return;
    const { first, last } = ranges.get(vertex) ?? { first: column, last: column };
    ranges.set(vertex, { first: Math.min(first, column), last: Math.max(last, column) });
  };
  table.columns.forEach(({ down, up, drop }, i) => {
    if (down !== null) reach(plan.edges[down]?.to, i);
    if (up !== null) reach(plan.edges[up]?.from, i);
    if (drop !== null) reach(plan.edges[drop]?.from, i);
    if (drop !== null) reach(plan.edges[drop]?.to, i);
  });
  return ranges;
}

/** Layers for bars, 0 the nearest to the rail, so that no two in one layer overlap; wide bars lie farther out, one farther than all. */
function layered(
  bars: readonly (readonly [vertex: number, range: Range])[],
  isOutermost: (vertex: number) => boolean,
): Map<number, number> {
  const width = ({ first, last }: Range) => last - first;
  const layers = new Map<number, number>();
  const placed: { readonly range: Range; readonly layer: number }[] = [];
  const sorted = [...bars].sort((a, b) => width(a[1]) - width(b[1]) || a[0] - b[0]);
  const inOrder = [...sorted.filter(([v]) => !isOutermost(v)), ...sorted.filter(([v]) => isOutermost(v))];
  for (const [vertex, range] of inOrder) {
    const isOver = (other: Range) => range.first <= other.last && other.first <= range.last;
    const beneath = placed.filter((other) => isOver(other.range)).map((other) => other.layer + 1);
    const layer = Math.max(0, ...(isOutermost(vertex) ? layers.values() : []), ...beneath);
    layers.set(vertex, layer);
    placed.push({ range, layer });
  }
  return layers;
}
