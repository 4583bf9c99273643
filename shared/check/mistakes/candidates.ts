import type { Circuit, NodeId, Part, Wanted } from "../../circuit";
import { isIndependentSource, partId } from "../../circuit";
import { multiply, quantity, type Rational, toNumber } from "../../quantity";
import type { Amount } from "../../solve";
import { sourceValues } from "../../solve/solve";
import { alternatingMistakes, otherFrequencies } from "./alternating";
import { scaledAmount } from "./amounts";
import { combiningMistakes } from "./combining";
import { meshLawMistakes } from "./meshLaws";
import { mistake } from "./mistake";
import { nodeLawMistakes } from "./nodeLaws";
import { mayBe, type Rough, roughOf, scaledRough } from "./rough";
import { RoughSolver } from "./roughSolver";
import { sumMistakes } from "./sums";
import {
  actingCircuit,
  amountIn,
  type Candidate,
  knownCandidate,
  type Mutation,
  once,
  opened,
  replacing,
  type Scaled,
  shorted,
  sourcesOf,
  type Target,
} from "./target";
import { thousands, valueSlips } from "./valueSlips";
import { dependentMistakes, nothingActing, polarityMistakes, zeroingMistakes } from "./zeroing";

/** The right value of a target, and what each mistake that applies to it makes of it. */
export type Candidates = {
  readonly right: Amount;
  readonly wrong: readonly Candidate[];
  /** What mistakes in mesh equations make of it, worked out when it is first asked for. */
  readonly inMeshes: () => readonly Candidate[];
};

/** Figures to which the right value in doubles has to be the exact one, for the wrong ones to be tried in doubles. */
const TRUSTED_FIGURES = 8;

/**
 * Every value that one mistake of the catalogue leads to, for the addend or total asked for; null where that has no
 * value. A mistake that changes nothing here is among them with the right value. `solver` finds them in doubles, and rules
 * out those whose equations contradict one another; with null, each is found exactly when it is asked for.
 */
export function candidatesOf(target: Target, solver: RoughSolver | null = new RoughSolver()): Candidates | null {
  const { circuit, wanted, sources } = target;
  const acting = sources === null ? circuit : actingCircuit(circuit, sources);
  const right = amountIn(acting, wanted);
  if (right === null) return null;
  const rough = solver !== null && isWellFound(right, solver.answer(acting, wanted)) ? solver : null;
  const mutations = sources === null ? wholeMistakes(circuit, wanted) : addendMistakes(target, acting);
  const inCircuit = valuesOf(mutations, wanted, rough).map((candidate) => toldAtFrequencyOf(right, candidate));
  const laws = nodeLawMistakes(acting, wanted, rough);
  const inMeshes = once(() => meshLawMistakes(acting, wanted, rough !== null));
  const sums = sources === null ? sumMistakes(target) : [];
  const given = sources === null ? sourceForEquivalent(circuit, wanted) : [];
  const wrong = [...sums, ...given, ...inCircuit, ...laws, ...valueSlips(right, wanted, acting)];
  return { right, wrong, inMeshes };
}

function addendMistakes({ circuit, wanted, sources }: Target, acting: Circuit): readonly Scaled[] {
  const own = sources ?? [];
  return [
    ...zeroingMistakes(circuit, own),
    ...dependentMistakes(circuit, own),
    ...polarityMistakes(circuit, own),
    ...inOneCircuit(acting, wanted),
    ...otherFrequencies(circuit, acting),
    nothingActing(circuit, own),
  ];
}

/** Mistakes in a circuit in which all sources act, or none for what is seen from two nodes. */
function wholeMistakes(circuit: Circuit, wanted: Wanted): readonly Scaled[] {
  if (wanted.kind === "resistance" || wanted.kind === "impedance") {
    const seen = seenCircuit(circuit, wanted.from);
    return [
      ...equivalentZeroing(circuit, seen),
      ...dependentMistakes(seen, sourcesOf(seen)),
      ...inOneCircuit(seen, wanted),
    ];
  }
  const ids = sourcesOf(circuit);
  return [...dependentMistakes(circuit, ids), ...polarityMistakes(circuit, ids), ...inOneCircuit(circuit, wanted)];
}

/**
 * The circuit that is seen from two nodes: its sources are zeroed. Where some are sinusoids their frequencies are still
 * told, by sources that drive nothing: both their ends are at one of the two nodes.
 */
function seenCircuit(circuit: Circuit, node: NodeId): Circuit {
  const acting = actingCircuit(circuit, []);
  const values = [...sourceValues(circuit).values()];
  if (values.every(({ kind }) => kind === "dc")) return acting;
  const tellers = values.map(
    (value, k): Part => ({
      kind: "current-source",
      id: partId(`\u0000frequency ${k}`),
      plus: node,
      minus: node,
      current:
        value.kind === "dc"
          ? { ...value, value: quantity(value.value, "A") }
          : { ...value, amplitude: quantity(value.amplitude, "A") },
    }),
  );
  return { ...acting, parts: [...acting.parts, ...tellers] };
}

function inOneCircuit(acting: Circuit, wanted: Wanted): readonly Scaled[] {
  return [...combiningMistakes(acting, wanted), ...alternatingMistakes(acting), ...inputSlips(acting)];
}

/** A resistance seen from two nodes with sources not zeroed as they should be. */
function equivalentZeroing({ parts }: Circuit, seen: Circuit): readonly Mutation[] {
  return parts.filter(isIndependentSource).map((part) => ({
    mistake: mistake("sourcesLeftOnInEquivalent", [part.id]),
    circuit: replacing(seen, part.kind === "voltage-source" ? opened(part) : shorted(part)),
  }));
}

/** The value of a source given for the voltage of an equivalent. */
function sourceForEquivalent(circuit: Circuit, { kind }: Wanted): readonly Candidate[] {
  if (kind !== "open-circuit-voltage" && kind !== "thevenin") return [];
  return circuit.parts.flatMap((part): Candidate[] => {
    if (part.kind !== "voltage-source" || part.voltage.kind !== "dc") return [];
    const value: Amount = { constant: { numbers: "exact", value: part.voltage.value }, phasors: [] };
    return [knownCandidate(mistake("sourceForEquivalent", [part.id]), value)];
  });
}

/** One part read with a wrong prefix. */
function inputSlips(acting: Circuit): readonly Mutation[] {
  return acting.parts.flatMap((part) =>
    [-1, 1].flatMap((n): Mutation[] => {
      const slipped = withValueTimes(part, thousands(n));
      return slipped === null
        ? []
        : [{ mistake: mistake("inputPrefixSlip", [part.id]), circuit: replacing(acting, slipped) }];
    }),
  );
}

function withValueTimes(part: Part, times: Rational): Part | null {
  switch (part.kind) {
    case "resistor":
      return { ...part, resistance: quantity(multiply(part.resistance, times), "Ω") };
    case "capacitor":
      return { ...part, capacitance: quantity(multiply(part.capacitance, times), "F") };
    case "inductor":
      return { ...part, inductance: quantity(multiply(part.inductance, times), "H") };
    default:
      // A source that acts alone scales the answer, which is a slip of its prefix.
      return null;
  }
}

/** What mutations lead to: in doubles where these can be trusted, and exactly once that is asked for. */
function valuesOf(mutations: readonly Scaled[], wanted: Wanted, solver: RoughSolver | null): readonly Candidate[] {
  return mutations.flatMap(({ mistake: made, circuit, wanted: other, times }): readonly Candidate[] => {
    const asked = other ?? wanted;
    const rough = solver === null ? null : solver.answer(circuit, asked);
    if (solver !== null && rough === null) return [];
    const amount = once(() => {
      const found = amountIn(circuit, asked);
      return found !== null && times !== undefined ? scaledAmount(found, times) : found;
    });
    const scaled = rough !== null && times !== undefined ? scaledRough(rough, toNumber(times)) : rough;
    return [{ mistake: made, rough: scaled, amount }];
  });
}

/** A value found with the impedances of a wrong frequency is still told at the right one. */
function toldAtFrequencyOf({ phasors }: Amount, candidate: Candidate): Candidate {
  const { mistake: made, rough, amount } = candidate;
  if (made.code !== "hertzAsRadians" && made.code !== "otherFrequency") return candidate;
  const told = once((): Amount | null => {
    const found = amount();
    if (found?.phasors.length !== phasors.length) return found;
    return { ...found, phasors: phasors.map((term, k) => ({ ...term, value: (found.phasors[k] ?? term).value })) };
  });
  const [only] = phasors;
  const isOne = phasors.length === 1 && only !== undefined && rough !== null && rough.omega > 0;
  return { mistake: made, rough: isOne ? { ...rough, omega: only.omega } : rough, amount: told };
}

/** Doubles serve where they find the right value: where its equations are not too near to having no solution. */
function isWellFound(right: Amount, rough: Rough | null): boolean {
  return rough !== null && mayBe(rough, roughOf(right), TRUSTED_FIGURES);
}
