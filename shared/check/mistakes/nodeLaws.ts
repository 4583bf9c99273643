import type { Circuit, NodeId, PartId, Wanted } from "../../circuit";
import { isZero, negate, type Rational } from "../../quantity";
import { type Amount, type SolvedSet, solveCircuit } from "../../solve";
import { exactArithmetic, type LinearSystem, type Term } from "../../solve/arithmetic";
import { respond, type Unknowns, unknownsOf } from "../../solve/equations";
import type { Branch, Network } from "../../solve/network";
import { branchIndex, readLinear } from "../../solve/superposition";
import { mistake } from "./mistake";
import { endsAt, resistorsOf } from "./reduction";
import type { RoughSlip, RoughSolver } from "./roughSolver";
import { type Candidate, once } from "./target";

/** What is wrong in Kirchhoff's current law at one node: a term turned, left out, or without its neighbour's voltage. */
type Slip = {
  readonly kind: "lawTermTurned" | "lawTermMissing" | "neighbourMissing";
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
  const rough = isShort(set.network, wanted) ? null : solver;
  return slipsOf(acting, solution.reference).map(
    (slip): Candidate => ({
      mistake: mistake(slip.kind, [slip.part], slip.node),
      rough: rough?.answer(acting, wanted, roughly(slip)) ?? null,
      amount: once(() => exactly(slip, set, places, wanted)),
    }),
  );
}

function isShort(network: Network<Rational>, wanted: LinearWanted): boolean {
  if (wanted.kind !== "current") return false;
  return network.branches[branchIndex(network, wanted.through, wanted.winding)]?.law.kind === "short";
}

/** Every resistor at every node where more than two branches meet: with two, nobody writes the law. */
function slipsOf(acting: Circuit, reference: NodeId | null): readonly Slip[] {
  const ends = endsAt(acting);
  return resistorsOf(acting).flatMap((part) =>
    [part.plus, part.minus].flatMap((node): Slip[] => {
      if (node === reference || (ends.get(node) ?? 0) < 3) return [];
      const far = part.plus === node ? part.minus : part.plus;
      const slips: Slip[] = [
        { kind: "lawTermTurned", part: part.id, node },
        { kind: "lawTermMissing", part: part.id, node },
      ];
      return far === reference ? slips : [...slips, { kind: "neighbourMissing", part: part.id, node }];
    }),
  );
}

/** The branch of a slip's resistor, and its ends as seen from the slip's node. */
function seenFrom<T>(network: Network<T>, { part, node }: Slip) {
  const branch = network.branches.find((each) => each.part === part) as Branch<T>;
  const isAtPlus = network.nodes[branch.plus] === node;
  const [own, other] = isAtPlus ? [branch.plus, branch.minus] : [branch.minus, branch.plus];
  return { law: branch.law, own, other };
}

/** How often the own and the other voltage's share of the term is taken out of the equation. */
const TAKEN = { lawTermTurned: [2, 2], lawTermMissing: [1, 1], neighbourMissing: [0, 1] } as const;

function roughly({ kind, part, node }: Slip): RoughSlip {
  const [own, other] = TAKEN[kind];
  return { part, node, own: -own, other };
}

function exactly(
  slip: Slip,
  { network, structure, values, arithmetic }: SolvedSet<Rational>,
  places: Unknowns,
  wanted: LinearWanted,
): Amount | null {
  const { law, own, other } = seenFrom(network, slip);
  const change = (system: LinearSystem<Rational>): LinearSystem<Rational> =>
    law.kind === "admittance"
      ? slippedSystem(system, slip.kind, places.ofNode[own] as number, places.ofNode[other] as number, law.admittance)
      : system;
  const solve = (system: LinearSystem<Rational>) => exactArithmetic.solve(change(system));
  const wrong = respond(network, structure, places, { ...exactArithmetic, solve }, [{ values, test: null }]);
  const response = wrong.ok ? wrong.responses[0] : undefined;
  if (response === undefined) return null;
  const value = readLinear(network, arithmetic, response, wanted);
  return { constant: { numbers: "exact", value }, phasors: [] };
}

/** The equations with one term wrong; −1 for a place that is held at 0 V. */
function slippedSystem(
  system: LinearSystem<Rational>,
  kind: Slip["kind"],
  own: number,
  other: number,
  admittance: Rational,
): LinearSystem<Rational> {
  if (own < 0 || isZero(admittance)) return system;
  const [ownTimes, otherTimes] = TAKEN[kind];
  const taken = (place: number, times: number, share: Rational): Term<Rational>[] =>
    place < 0 ? [] : Array.from({ length: times }, () => [place, share] as const);
  const rows = [...system.rows];
  rows[own] = [
    ...(system.rows[own] ?? []),
    ...taken(own, ownTimes, negate(admittance)),
    ...taken(other, otherTimes, admittance),
  ];
  return { ...system, rows };
}
