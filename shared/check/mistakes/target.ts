import type { Circuit, Part, PartId, Wanted } from "../../circuit";
import { isIndependentSource } from "../../circuit";
import type { Rational } from "../../quantity";
import { type Amount, answerOf, type Grouping, solveCircuit } from "../../solve";
import type { Mistake } from "./mistake";
import { type Rough, roughOf } from "./rough";

/** What a value was entered for: one addend of a wanted quantity, or its total with null. */
export type Target = {
  readonly circuit: Circuit;
  readonly wanted: Wanted;
  /** The sets of sources that the total is the sum of. */
  readonly grouping: Grouping;
  readonly sources: readonly PartId[] | null;
};

/** Whether a quantity is the sum of what the sources give: powers do not add, and what is seen from two nodes has no addends. */
export function hasAddends({ kind }: Wanted): boolean {
  return !["power", "resistance", "impedance", "maximum-power-load"].includes(kind);
}

/**
 * A value that somebody gets who makes a mistake. `rough` is what it comes to in doubles, null where that is not known;
 * `amount` works it out as exactly as the circuit allows, when it is first asked for, and is null where it has none.
 */
export type Candidate = {
  readonly mistake: Mistake;
  readonly rough: Rough | null;
  readonly amount: () => Amount | null;
};

/** A candidate whose value is known. */
export function knownCandidate(mistake: Mistake, value: Amount): Candidate {
  return { mistake, rough: roughOf(value), amount: () => value };
}

/** A function whose result is worked out once, when it is first asked for. */
export function once<R>(work: () => R): () => R {
  let result: { readonly value: R } | null = null;
  return () => {
    result ??= { value: work() };
    return result.value;
  };
}

/** A circuit that somebody solves who makes a mistake; `wanted` where the mistake changes what is looked at, too. */
export type Mutation = { readonly mistake: Mistake; readonly circuit: Circuit; readonly wanted?: Wanted };

/** A mutation whose result is taken so many times. */
export type Scaled = Mutation & { readonly times?: Rational };

/** Each of some parts alone, and all of them at once where there are more. */
export function eachAndAll<P>(parts: readonly P[]): readonly (readonly P[])[] {
  return [...parts.map((part) => [part]), ...(parts.length > 1 ? [parts] : [])];
}

/** A part that has become a piece of wire, and one that has become a gap; by name they are still there to be followed. */
export function shorted(part: TwoEnded): Part {
  return { kind: "wire", id: part.id, plus: part.plus, minus: part.minus };
}
export function opened(part: TwoEnded): Part {
  return { kind: "switch", id: part.id, plus: part.plus, minus: part.minus, state: "open" };
}
export type TwoEnded = Exclude<Part, { kind: "ideal-opamp" | "ideal-transformer" }>;

export function isTwoEnded(part: Part): part is TwoEnded {
  return part.kind !== "ideal-opamp" && part.kind !== "ideal-transformer";
}

/** The circuit in which some sources act and the others are zeroed, rightly: a voltage source a short, a current source an open. */
export function actingCircuit(circuit: Circuit, sources: readonly PartId[]): Circuit {
  return withParts(circuit, (part) => {
    if (!isIndependentSource(part) || sources.includes(part.id)) return part;
    return part.kind === "voltage-source" ? shorted(part) : opened(part);
  });
}

/** The circuit with each part replaced by what the function makes of it. */
export function withParts(circuit: Circuit, change: (part: Part) => Part): Circuit {
  return { ...circuit, parts: circuit.parts.map(change) };
}

/** The circuit with some parts, by name, replaced. */
export function replacing(circuit: Circuit, ...parts: readonly Part[]): Circuit {
  const byName = new Map(parts.map((part) => [part.id, part]));
  return withParts(circuit, (part) => byName.get(part.id) ?? part);
}

/** What a circuit gives for a wanted quantity; null where it gives nothing. */
export function amountIn(circuit: Circuit, wanted: Wanted): Amount | null {
  const solution = solveCircuit({ ...circuit, wanted: [wanted] });
  return answerOf(solution, wanted, []).total;
}

/** All independent sources of a circuit. */
export function sourcesOf({ parts }: Circuit): readonly PartId[] {
  return parts.filter(isIndependentSource).map(({ id }) => id);
}

/** The independent sources of a circuit that are not among `sources`. */
export function otherSources(circuit: Circuit, sources: readonly PartId[]) {
  return circuit.parts.filter(isIndependentSource).filter(({ id }) => !sources.includes(id));
}
