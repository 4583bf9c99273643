import type { Circuit, NodeId, Part, PartId, Wanted } from "../../circuit";
import { nodeId, terminalsOf } from "../../circuit";
import { add, divide, isZero, multiply, quantity, type Rational } from "../../quantity";

export type Resistor = Extract<Part, { kind: "resistor" }>;

/** A circuit on the way of taking resistors together. */
export type Stage = {
  readonly circuit: Circuit;
  readonly wanted: Wanted;
  /** The parts that a resistor stands for. */
  readonly standsFor: ReadonlyMap<PartId, readonly PartId[]>;
};

export type Pair = { readonly kind: "series" | "parallel"; readonly a: Resistor; readonly b: Resistor };

/** The resistors of a circuit that has been freed of wires and gaps, then those of each step on the way to fewer. */
export function stagesOf(circuit: Circuit, wanted: Wanted): readonly Stage[] {
  const bare = withoutWires(circuit, wanted);
  const own = new Map(resistorsOf(bare.circuit).map(({ id }): [PartId, readonly PartId[]] => [id, [id]]));
  const stages: Stage[] = [{ ...bare, standsFor: own }];
  for (;;) {
    const stage = stages[stages.length - 1] as Stage;
    const followed = followedParts(stage.circuit);
    const pairs = pairsOf(stage).filter((each) => isTaken(each, stage.wanted, followed));
    // Rows first, so that there is a stage at which all the branches between two nodes stand side by side.
    const pair = pairs.find(({ kind }) => kind === "series") ?? pairs[0];
    if (pair === undefined) return stages;
    stages.push(takenTogether(stage, pair));
  }
}

export function resistorsOf({ parts }: Circuit): readonly Resistor[] {
  return parts.filter((part) => part.kind === "resistor").filter(({ resistance }) => !isZero(resistance));
}

/** The resistors of a stage that a resistor's parts are; their names for a mistake. */
export function named({ standsFor }: Stage, ...resistors: readonly Resistor[]): readonly PartId[] {
  return resistors.flatMap(({ id }) => standsFor.get(id) ?? [id]);
}

/** Pairs in series (nothing else at the node between them) and in parallel. */
export function pairsOf({ circuit, wanted }: Stage): readonly Pair[] {
  const resistors = resistorsOf(circuit);
  const ends = endsAt(circuit);
  const pinned = pinsOf(circuit, wanted);
  return resistors.flatMap((a, i) =>
    resistors.slice(i + 1).flatMap((b): Pair[] => {
      const shared = [a.plus, a.minus].filter((node) => node === b.plus || node === b.minus);
      if (shared.length === 2) return [{ kind: "parallel", a, b }];
      const [middle] = shared;
      if (middle === undefined || ends.get(middle) !== 2 || pinned.has(middle)) return [];
      return [{ kind: "series", a, b }];
    }),
  );
}

/** How many terminals meet at each node. */
export function endsAt({ parts }: Circuit): ReadonlyMap<NodeId, number> {
  const ends = new Map<NodeId, number>();
  for (const part of parts) for (const { node } of terminalsOf(part)) ends.set(node, (ends.get(node) ?? 0) + 1);
  return ends;
}

/** Nodes that must stay: the reference, those asked about, those that a source follows. */
function pinsOf({ parts, reference }: Circuit, wanted: Wanted): ReadonlySet<NodeId> {
  const pins = new Set<NodeId>(reference === null ? [] : [reference]);
  for (const part of parts) {
    if (part.kind === "vcvs" || part.kind === "vccs") pins.add(part.control.plus).add(part.control.minus);
  }
  if ("from" in wanted) pins.add(wanted.from).add(wanted.to);
  return pins;
}

/** The part whose current, or power, is asked for. */
export function askedPart(wanted: Wanted): PartId | null {
  if (wanted.kind === "current") return wanted.through;
  return wanted.kind === "power" ? wanted.of : null;
}

/** The parts whose current a source follows. */
export function followedParts({ parts }: Circuit): ReadonlySet<PartId> {
  return new Set(parts.flatMap((part) => ("control" in part && "part" in part.control ? [part.control.part] : [])));
}

/** Whether somebody takes a pair together: not so that what is asked for, or what a source follows, would be lost. */
function isTaken({ kind, a, b }: Pair, wanted: Wanted, followed: ReadonlySet<PartId>): boolean {
  if (followed.has(a.id) || followed.has(b.id)) return false;
  const asked = askedPart(wanted);
  const isAsked = a.id === asked || b.id === asked;
  return !isAsked || (kind === "series" && wanted.kind === "current");
}

/** The stage behind: `a` stands for both, or `b` where that is asked for. */
function takenTogether({ circuit, wanted, standsFor }: Stage, pair: Pair): Stage {
  const [kept, gone] = pair.b.id === askedPart(wanted) ? [pair.b, pair.a] : [pair.a, pair.b];
  const one = pair.kind === "parallel" ? withResistance(kept, parallel(kept, gone)) : joinedInSeries(kept, gone);
  const parts = circuit.parts.flatMap((part) => {
    if (part.id === gone.id) return [];
    return [part.id === kept.id ? one : part];
  });
  const of = [...(standsFor.get(kept.id) ?? []), ...(standsFor.get(gone.id) ?? [])];
  return { circuit: { ...circuit, parts }, wanted, standsFor: new Map(standsFor).set(kept.id, of) };
}

/** Both in a row in place of the first, which keeps its direction. */
function joinedInSeries(kept: Resistor, gone: Resistor): Resistor {
  const resistance = quantity(add(kept.resistance, gone.resistance), "Ω");
  const isAtPlus = kept.plus === gone.plus || kept.plus === gone.minus;
  const middle = isAtPlus ? kept.plus : kept.minus;
  const far = gone.plus === middle ? gone.minus : gone.plus;
  return isAtPlus ? { ...kept, resistance, plus: far } : { ...kept, resistance, minus: far };
}

export function withResistance(resistor: Resistor, resistance: Rational): Resistor {
  return { ...resistor, resistance: quantity(resistance, "Ω") };
}

export function parallel(a: Resistor, b: Resistor): Rational {
  return divide(multiply(a.resistance, b.resistance), add(a.resistance, b.resistance));
}

/** A circuit whose wires have joined their nodes and whose gaps are gone, but for those that somebody asks of or follows. */
export function withoutWires(circuit: Circuit, wanted: Wanted): { readonly circuit: Circuit; readonly wanted: Wanted } {
  const followed = new Set(followedParts(circuit));
  const asked = askedPart(wanted);
  if (asked !== null) followed.add(asked);
  const names = new Map<NodeId, NodeId>();
  const find = (node: NodeId): NodeId => {
    const next = names.get(node);
    return next === undefined ? node : find(next);
  };
  const isWire = (part: Part): boolean =>
    part.kind === "wire" ||
    (part.kind === "switch" && part.state === "closed") ||
    (part.kind === "resistor" && isZero(part.resistance));
  const left = circuit.parts.filter((part) => {
    if (followed.has(part.id)) return true;
    if (isWire(part) && "plus" in part) {
      const [a, b] = [find(part.plus), find(part.minus)];
      if (a !== b) names.set(a === circuit.reference ? b : a, a === circuit.reference ? a : b);
      return false;
    }
    return !(part.kind === "switch" && part.state === "open");
  });
  const parts = left
    .map((part) => renamed(part, find))
    .filter((part) => !isAcrossItself(part) || followed.has(part.id));
  const reference = circuit.reference === null ? null : find(circuit.reference);
  const asking = "from" in wanted ? { ...wanted, from: find(wanted.from), to: find(wanted.to) } : wanted;
  return { circuit: { ...circuit, parts, reference }, wanted: asking };
}

function isAcrossItself(part: Part): boolean {
  return part.kind === "resistor" && part.plus === part.minus;
}

function renamed(part: Part, find: (node: NodeId) => NodeId): Part {
  const pair = <P extends { readonly plus: NodeId; readonly minus: NodeId }>(ends: P): P => ({
    ...ends,
    plus: find(ends.plus),
    minus: find(ends.minus),
  });
  switch (part.kind) {
    case "ideal-opamp":
      return { ...part, inPlus: find(part.inPlus), inMinus: find(part.inMinus), out: find(part.out) };
    case "ideal-transformer":
      return { ...part, primary: pair(part.primary), secondary: pair(part.secondary) };
    case "vcvs":
    case "vccs":
      return { ...pair(part), control: pair(part.control) };
    default:
      return pair(part);
  }
}

/** A node that no circuit has. */
export const NEW_NODE = nodeId("\u0000between");
