import type { Circuit, NodeId, PartId, Wanted } from "../../circuit";
import { integer, isZero, multiply, negate, ONE, type Rational } from "../../quantity";
import { type Amount, type SolvedSet, solveCircuit } from "../../solve";
import { exactArithmetic, type LinearSystem, type Term } from "../../solve/arithmetic";
import { respond, type Unknowns, unknownsOf } from "../../solve/equations";
import type { Branch, Network } from "../../solve/network";
import { branchIndex, readLinear } from "../../solve/superposition";
import { mistake } from "./mistake";
import { endsAt, resistorsOf } from "./reduction";
import type { RoughSlip, RoughSolver } from "./roughSolver";
import { type Candidate, once } from "./target";

/**
 * What is wrong in Kirchhoff's current law at one node: a term turned, left out, or without its neighbour's voltage; or the
 * current of a voltage source left out.
 */
type Slip = {
  readonly kind: "lawTermTurned" | "lawTermMissing" | "neighbourMissing" | "sourceCurrentMissing";
  readonly part: PartId;
  readonly node: NodeId;
};

type LinearWanted = Extract<Wanted, { kind: "current" | "voltage" }>;

/**
 * Mistakes in writing node equations, for a circuit of constants whose equations are those of its nodes: one term of one
 * equation turned round or forgotten, or v/R written where (v − v′)/R belongs.
 */
export function nodeLawMistakes(acting: Circuit, wanted: Wanted, solver: RoughSolver | null): readonly Candidate[] {
  if (wanted.kind !== "current" && wanted.kind !== "voltage") return [];
  const solution = solveCircuit({ ...acting, wanted: [] });
  if (solution.dc?.numbers !== "exact" || solution.sinusoids.length > 0) return [];
  const set = solution.dc;
  const places = unknownsOf(set.network, set.structure);
  // What flows in a short is found by the unchanged laws afterwards, which the rough equations don't do.
  const inDoubles = isShort(set.network, wanted) ? null : solver;
  return slipsOf(acting, solution.reference).flatMap((slip): readonly Candidate[] => {
    const rough = inDoubles === null ? null : inDoubles.answer(acting, wanted, roughly(slip));
    if (inDoubles !== null && rough === null) return [];
    const amount = once(() => exactly(slip, set, places, wanted));
    return [{ mistake: mistake(slip.kind, [slip.part], slip.node), rough, amount }];
  });
}

function isShort(network: Network<Rational>, wanted: LinearWanted): boolean {
  if (wanted.kind !== "current") return false;
  return network.branches[branchIndex(network, wanted.through, wanted.winding)]?.law.kind === "short";
}

/** Every resistor and voltage source at every node where more than two branches meet: with two, nobody writes the law. */
function slipsOf(acting: Circuit, reference: NodeId | null): readonly Slip[] {
  const ends = endsAt(acting);
  const isWritten = (node: NodeId): boolean => node !== reference && (ends.get(node) ?? 0) >= 3;
  const ofSources = acting.parts.flatMap((part) =>
    part.kind === "voltage-source" && part.plus !== part.minus
      ? [part.plus, part.minus]
          .filter(isWritten)
          .map((node): Slip => ({ kind: "sourceCurrentMissing", part: part.id, node }))
      : [],
  );
  const ofResistors = resistorsOf(acting).flatMap((part) =>
    [part.plus, part.minus].flatMap((node): Slip[] => {
      if (!isWritten(node)) return [];
      const far = part.plus === node ? part.minus : part.plus;
      const slips: Slip[] = [
        { kind: "lawTermTurned", part: part.id, node },
        { kind: "lawTermMissing", part: part.id, node },
      ];
      return far === reference ? slips : [...slips, { kind: "neighbourMissing", part: part.id, node }];
    }),
  );
  return [...ofResistors, ...ofSources];
}

/** How often the own and the other voltage's share of the term is taken out of the equation. */
const TAKEN = { lawTermTurned: [2, 2], lawTermMissing: [1, 1], neighbourMissing: [0, 1] } as const;

function roughly({ kind, part, node }: Slip): RoughSlip {
  if (kind === "sourceCurrentMissing") return { part, node, current: true };
  const [own, other] = TAKEN[kind];
  return { part, node, current: false, own: -own, other };
}

function exactly(
  slip: Slip,
  { network, structure, values, arithmetic }: SolvedSet<Rational>,
  places: Unknowns,
  wanted: LinearWanted,
): Amount | null {
  const change = (system: LinearSystem<Rational>): LinearSystem<Rational> => slipped(system, slip, network, places);
  const solve = (system: LinearSystem<Rational>) => exactArithmetic.solve(change(system));
  const wrong = respond(network, structure, places, { ...exactArithmetic, solve }, [{ values, test: null }]);
  const response = wrong.ok ? wrong.responses[0] : undefined;
  if (response === undefined) return null;
  const value = readLinear(network, arithmetic, response, wanted);
  return { constant: { numbers: "exact", value }, phasors: [] };
}

/** The equations with one term wrong. The law of a node that is held at 0 V is not among them. */
function slipped(
  system: LinearSystem<Rational>,
  slip: Slip,
  network: Network<Rational>,
  places: Unknowns,
): LinearSystem<Rational> {
  const index = network.branches.findIndex(({ part }) => part === slip.part);
  const { law, plus, minus } = network.branches[index] as Branch<Rational>;
  const isAtPlus = network.nodes[plus] === slip.node;
  const own = places.ofNode[isAtPlus ? plus : minus] as number;
  const other = places.ofNode[isAtPlus ? minus : plus] as number;
  if (own < 0) return system;
  const added = (terms: readonly Term<Rational>[]): LinearSystem<Rational> => {
    const rows = [...system.rows];
    rows[own] = [...(system.rows[own] ?? []), ...terms.filter(([place]) => place >= 0)];
    return { ...system, rows };
  };
  if (slip.kind === "sourceCurrentMissing") {
    return own === other ? system : added([[places.ofBranch[index] as number, isAtPlus ? negate(ONE) : ONE]]);
  }
  if (law.kind !== "admittance" || isZero(law.admittance)) return system;
  const [ownTimes, otherTimes] = TAKEN[slip.kind];
  return added([
    [own, multiply(integer(-ownTimes), law.admittance)],
    [other, multiply(integer(otherTimes), law.admittance)],
  ]);
}
