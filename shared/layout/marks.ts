import { type Circuit, isDependentSource, type NodeId, type PartId, type VoltageControl } from "../circuit";

/** What is drawn beside parts besides their labels. */
export type Marks = {
  /** How many arrows or pairs of signs stand beside a part, for wanted quantities and for those that sources follow. */
  readonly counts: ReadonlyMap<PartId, number>;
  /** Whether every part has its current beside it, and every node its voltage. */
  readonly hasValues: boolean;
};

export function marksOn(part: PartId, { counts, hasValues }: Marks): number {
  return (counts.get(part) ?? 0) + (hasValues ? 1 : 0);
}

export function marksOf({ parts, wanted }: Circuit, hasValues: boolean): Marks {
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
  return { counts: marks, hasValues };
}

function isBetween({ plus, minus }: VoltageControl, from: NodeId, to: NodeId): boolean {
  return (plus === from && minus === to) || (plus === to && minus === from);
}
