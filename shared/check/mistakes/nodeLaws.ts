import type { Circuit, NodeId, PartId, Wanted } from "../../circuit";
import { isZero, negate, type Rational } from "../../quantity";
import { type Amount, solveCircuit } from "../../solve";
import { exactArithmetic, type LinearSystem, type Term } from "../../solve/arithmetic";
import { respond, unknownsOf } from "../../solve/equations";
import { readLinear } from "../../solve/superposition";
import { type Mistake, mistake } from "./mistake";
import { endsAt, resistorsOf } from "./reduction";
import type { Candidate } from "./target";

/** What is wrong in Kirchhoff's current law at one node: a term turned, left out, or without its neighbour's voltage. */
type Slip = {
  readonly kind: "lawTermTurned" | "lawTermMissing" | "neighbourMissing";
  readonly part: PartId;
  readonly node: NodeId;
};

/**
 * Mistakes in writing node equations, for a circuit of constants whose equations are those of its nodes: one term of one
 * equation turned round or forgotten, or v/R written where (v − v′)/R belongs.
 */
export function nodeLawMistakes(acting: Circuit, wanted: Wanted): readonly Candidate[] {
  if (wanted.kind !== "current" && wanted.kind !== "voltage") return [];
  const solution = solveCircuit({ ...acting, wanted: [] });
  if (solution.dc?.numbers !== "exact" || solution.sinusoids.length > 0) return [];
  const { network, structure, values, arithmetic } = solution.dc;
  const places = unknownsOf(network, structure);
  const slips = slipsOf(acting, solution.reference);
  return slips.flatMap((slip): Candidate[] => {
    const change = (system: LinearSystem<Rational>): LinearSystem<Rational> => {
      const branch = network.branches.find(({ part }) => part === slip.part);
      if (branch?.law.kind !== "admittance") return system;
      const at = (node: number): number => places.ofNode[node] as number;
      const isAtPlus = network.nodes[branch.plus] === slip.node;
      const [own, other] = isAtPlus ? [at(branch.plus), at(branch.minus)] : [at(branch.minus), at(branch.plus)];
      return slippedSystem(system, slip.kind, own, other, branch.law.admittance);
    };
    const wrong = respond(
      network,
      structure,
      places,
      { ...exactArithmetic, solve: (system) => exactArithmetic.solve(change(system)) },
      [{ values, test: null }],
    );
    if (!wrong.ok) return [];
    const [response] = wrong.responses;
    if (response === undefined) return [];
    const value = readLinear(network, arithmetic, response, wanted);
    return [{ mistake: slipOf(slip), value: constant(value) }];
  });
}

function slipOf({ kind, part, node }: Slip): Mistake {
  return mistake(kind, [part], node);
}

function constant(value: Rational): Amount {
  return { constant: { numbers: "exact", value }, phasors: [] };
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

/** The equations with one term wrong; −1 for a place that is held at 0 V. */
function slippedSystem(
  system: LinearSystem<Rational>,
  kind: Slip["kind"],
  own: number,
  other: number,
  admittance: Rational,
): LinearSystem<Rational> {
  if (own < 0 || isZero(admittance)) return system;
  const against = negate(admittance);
  const removed: Term<Rational>[] = [];
  if (kind !== "neighbourMissing") removed.push([own, against]);
  if (other >= 0) removed.push([other, admittance]);
  const added = kind === "lawTermTurned" ? [...removed, ...removed] : removed;
  const rows = [...system.rows];
  rows[own] = [...(system.rows[own] ?? []), ...added];
  return { ...system, rows };
}
