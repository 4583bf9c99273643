import type { Circuit, CurrentControl, NodeId, Part, PartId, VoltageControl, Winding } from "../circuit";
import { terminalsOf, unreachable } from "../circuit";
import type { Frequency, Rational, SourceValue } from "../quantity";
import { isZero, reciprocal, toNumber } from "../quantity";
import type { Arithmetic } from "./arithmetic";
import { type Complex, complex } from "./complex";

/** Indices into {@link Network.nodes} and {@link Network.branches}. */
export type NodeIndex = number;
export type BranchIndex = number;
export type Pair = { readonly plus: NodeIndex; readonly minus: NodeIndex };

/**
 * How a branch ties its voltage v (plus less minus) and current i (plus to minus) at one frequency. `source` is the
 * place of an independent source among those acting at this frequency, null for one that is zeroed.
 */
export type Law<T> =
  | { readonly kind: "admittance"; readonly admittance: T; readonly impedance: T }
  | { readonly kind: "short" }
  | { readonly kind: "open" }
  | { readonly kind: "voltage"; readonly source: number | null }
  | { readonly kind: "current"; readonly source: number | null }
  | { readonly kind: "vcvs" | "vccs"; readonly control: Pair; readonly gain: T }
  | { readonly kind: "ccvs" | "cccs"; readonly control: BranchIndex; readonly gain: T }
  /** i is whatever keeps the inputs at one voltage. */
  | { readonly kind: "opAmp"; readonly inputs: Pair }
  /** v = ratio · v(secondary). */
  | { readonly kind: "primary"; readonly secondary: Pair; readonly ratio: T }
  /** i = −ratio · i(primary). */
  | { readonly kind: "secondary"; readonly primary: BranchIndex; readonly ratio: T };

export type Branch<T> = Pair & { readonly part: PartId; readonly winding: Winding; readonly law: Law<T> };

/** A circuit at one frequency, its names turned into indices. */
export type Network<T> = {
  readonly nodes: readonly NodeId[];
  readonly reference: NodeIndex;
  readonly branches: readonly Branch<T>[];
  /** The independent sources acting at this frequency, in the circuit's order. */
  readonly sources: readonly PartId[];
};

/** DC, or one angular frequency. */
export type Stimulus = { readonly frequency: Frequency | null; readonly omega: number };

export const DC: Stimulus = { frequency: null, omega: 0 };

/** ω in rad/s. */
export function omegaOf(frequency: Frequency): number {
  const value = toNumber(frequency.value);
  return frequency.unit === "Hz" ? 2 * Math.PI * value : value;
}

/** Whether a source has a part at this frequency; a frequency is the same only in the unit it was given in. */
export function actsAt(value: SourceValue<"V"> | SourceValue<"A">, stimulus: Stimulus): boolean {
  if (value.kind === "dc") return stimulus.frequency === null;
  const { frequency } = stimulus;
  return (
    frequency !== null &&
    frequency.unit === value.frequency.unit &&
    frequency.value.n === value.frequency.value.n &&
    frequency.value.d === value.frequency.value.d
  );
}

/** Numbers of a stimulus: how capacitors and inductors are written in them. */
export type ReactanceLaw<T> = {
  capacitor(capacitance: Rational): Law<T>;
  inductor(inductance: Rational): Law<T>;
};

/** DC steady state: a capacitor carries no current, an inductor has no voltage. */
export const constantReactance: ReactanceLaw<never> = {
  capacitor: () => ({ kind: "open" }),
  inductor: () => ({ kind: "short" }),
};

/** jωC and 1/(jωL). A zero inductance is a short, a zero capacitance an open. */
export function sinusoidalReactance(omega: number): ReactanceLaw<Complex> {
  return {
    capacitor: (capacitance) => {
      const susceptance = omega * toNumber(capacitance);
      if (susceptance === 0) return { kind: "open" };
      return { kind: "admittance", admittance: complex(0, susceptance), impedance: complex(0, -1 / susceptance) };
    },
    inductor: (inductance) => {
      const reactance = omega * toNumber(inductance);
      if (reactance === 0) return { kind: "short" };
      return { kind: "admittance", admittance: complex(0, -1 / reactance), impedance: complex(0, reactance) };
    },
  };
}

/**
 * The network of a circuit whose controls all exist and whose reference is chosen.
 * Throws where they don't: the circuit check comes first.
 */
export function networkOf<T>(
  circuit: Circuit,
  reference: NodeId,
  stimulus: Stimulus,
  arithmetic: Arithmetic<T>,
  reactance: ReactanceLaw<T>,
): Network<T> {
  const nodes = nodesOf(circuit, reference);
  const indexOf = new Map(nodes.map((node, i) => [node, i]));
  const branchOf = new Map<PartId, BranchIndex>();
  let count = 0;
  for (const part of circuit.parts) {
    branchOf.set(part.id, count);
    count += part.kind === "ideal-transformer" ? 2 : 1;
  }
  const sources: PartId[] = [];
  const pair = ({ plus, minus }: VoltageControl): Pair => ({
    plus: known(indexOf, plus),
    minus: known(indexOf, minus),
  });
  const controlled = (control: CurrentControl, gain: Rational): { control: BranchIndex; gain: T } => {
    const value = arithmetic.fromRational(gain);
    return {
      control: known(branchOf, control.part),
      gain: control.direction === "forward" ? value : arithmetic.negate(value),
    };
  };
  const acting = (id: PartId, value: SourceValue<"V"> | SourceValue<"A">): number | null =>
    actsAt(value, stimulus) ? sources.push(id) - 1 : null;

  const lawOf = (part: Exclude<Part, { kind: "ideal-transformer" | "ideal-opamp" }>): Law<T> => {
    switch (part.kind) {
      case "resistor":
        if (isZero(part.resistance)) return { kind: "short" };
        return {
          kind: "admittance",
          admittance: arithmetic.fromRational(reciprocal(part.resistance)),
          impedance: arithmetic.fromRational(part.resistance),
        };
      case "capacitor":
        return reactance.capacitor(part.capacitance);
      case "inductor":
        return reactance.inductor(part.inductance);
      case "voltage-source":
        return { kind: "voltage", source: acting(part.id, part.voltage) };
      case "current-source":
        return { kind: "current", source: acting(part.id, part.current) };
      case "vcvs":
      case "vccs":
        return { kind: part.kind, control: pair(part.control), gain: arithmetic.fromRational(part.gain) };
      case "ccvs":
      case "cccs":
        return { kind: part.kind, ...controlled(part.control, part.gain) };
      case "switch":
        return { kind: part.state === "closed" ? "short" : "open" };
      case "wire":
        return { kind: "short" };
      default:
        return unreachable(part);
    }
  };

  const branches = circuit.parts.flatMap((part): Branch<T>[] => {
    if (part.kind === "ideal-opamp") {
      const law: Law<T> = { kind: "opAmp", inputs: pair({ plus: part.inPlus, minus: part.inMinus }) };
      return [{ part: part.id, winding: "primary", plus: known(indexOf, part.out), minus: 0, law }];
    }
    if (part.kind === "ideal-transformer")
      return windingsOf(part.id, pair(part.primary), pair(part.secondary), part.ratio);
    return [{ part: part.id, winding: "primary", ...pair(part), law: lawOf(part) }];
  });

  function windingsOf(id: PartId, primary: Pair, secondary: Pair, turns: Rational): Branch<T>[] {
    const ratio = arithmetic.fromRational(turns);
    return [
      { part: id, winding: "primary", ...primary, law: { kind: "primary", secondary, ratio } },
      { part: id, winding: "secondary", ...secondary, law: { kind: "secondary", primary: known(branchOf, id), ratio } },
    ];
  }
  return { nodes, reference: 0, branches, sources };
}

/** All nodes, the reference first, then in the order in which parts name them. */
export function nodesOf(circuit: Circuit, reference: NodeId): readonly NodeId[] {
  const nodes = new Set<NodeId>([reference]);
  for (const part of circuit.parts) {
    for (const { node } of terminalsOf(part)) nodes.add(node);
    if (part.kind === "vcvs" || part.kind === "vccs") nodes.add(part.control.plus).add(part.control.minus);
  }
  return [...nodes];
}

function known<K, V>(map: ReadonlyMap<K, V>, key: K): V {
  const value = map.get(key);
  if (value === undefined) throw new Error(`networkOf: ${String(key)} is not in the circuit`);
  return value;
}
