import {
  type Circuit,
  type Drawing,
  isDependentSource,
  type NodeId,
  type PartId,
  type VoltageControl,
} from "../circuit";

/** What a layout is asked to heed besides the circuit: what stands beside parts, and where they stood before. */
export type Marks = {
  /** How many arrows or pairs of signs stand beside a part, for wanted quantities and for those that sources follow. */
  readonly counts: ReadonlyMap<PartId, number>;
  /** Whether every part has its current beside it, and every node its voltage. */
  readonly hasValues: boolean;
  /** How far to the right parts stand in another drawing, from −1 to 1; null where there is none to be like. */
  readonly places: ReadonlyMap<PartId, number> | null;
};

/** The mean place of parts in the other drawing, 0 for parts that are not in it; null where there is none. */
export function placeOf(parts: readonly PartId[], { places }: Marks): number | null {
  if (places === null) return null;
  const known = parts.flatMap((part) => places.get(part) ?? []);
  return known.length === 0 ? 0 : known.reduce((sum, place) => sum + place, 0) / known.length;
}

/** From −1 for what stands farthest to the left to 1 for what stands farthest to the right. */
function placesIn({ placements }: Drawing): ReadonlyMap<PartId, number> {
  const middles = placements.map((each) => (each.shape === "line" ? (each.from[0] + each.to[0]) / 2 : each.at[0]));
  const [left, right] = [Math.min(...middles), Math.max(...middles)];
  const half = Math.max(1, right - left) / 2;
  return new Map(placements.map(({ part }, i) => [part, ((middles[i] ?? left) - left) / half - 1]));
}

export function marksOn(part: PartId, { counts, hasValues }: Marks): number {
  return (counts.get(part) ?? 0) + (hasValues ? 1 : 0);
}

export function marksOf({ parts, wanted }: Circuit, hasValues: boolean, like: Drawing | null): Marks {
  const marks = new Map<PartId, number>();
  const mark = (part: PartId | undefined) => {
    if (part !== undefined) marks.set(part, (marks.get(part) ?? 0) + 1);
  };
  const across = (from: NodeId, to: NodeId) => parts.find((part) => "plus" in part && isBetween(part, from, to))?.id;
  for (const each of wanted) {
    if ("through" in each) mark(each.through);
    else if ("of" in each) mark(each.of);
    else mark(across(each.from, each.to));
  }
  for (const part of parts) {
    if (!isDependentSource(part)) continue;
    const { control } = part;
    mark("part" in control ? control.part : across(control.plus, control.minus));
  }
  return { counts: marks, hasValues, places: like && placesIn(like) };
}

function isBetween({ plus, minus }: VoltageControl, from: NodeId, to: NodeId): boolean {
  return (plus === from && minus === to) || (plus === to && minus === from);
}
