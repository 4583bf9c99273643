import type { Circuit, PartId, Wanted } from "../../circuit";
import { add, integer, multiply, negate, ONE, toNumber, ZERO } from "../../quantity";
import type { Amount } from "../../solve";
import { exactArithmetic } from "../../solve/arithmetic";
import { DenseSystem } from "./denseSystem";
import { type Form, type MeshEquations, type MeshStep, meshEquations, plus } from "./meshes";
import { type Mistake, mistake } from "./mistake";
import { withoutWires } from "./reduction";
import { type Rough, roughPoint } from "./rough";
import { type Candidate, once } from "./target";

/** Equations with something wrong in them: the laws of some meshes, or what is read off for the answer. */
type Slip = { readonly mistake: Mistake; readonly laws: readonly Form[]; readonly asked: Form };

/** What rounding may have changed of a sum, as a share of its terms taken with the largest unknown. */
const ROUNDING = 1e-9;

/**
 * Mistakes in writing mesh equations, for a circuit of constants that has them: one term of one equation turned round or
 * forgotten, the share of the neighbouring mesh's current turned or left out, the voltage of a current source between two
 * meshes left out, and the current around a mesh given for that in a branch that two meshes share.
 */
export function meshLawMistakes(acting: Circuit, wanted: Wanted, isRough: boolean): readonly Candidate[] {
  const bare = withoutWires(acting, wanted);
  const solver = new MeshSolver();
  return meshEquations(bare.circuit, bare.wanted).flatMap((equations) =>
    slipsOf(equations).map(
      (slip): Candidate => ({
        mistake: slip.mistake,
        rough: isRough ? solver.rough(equations, slip) : null,
        amount: once(() => exactly(equations, slip)),
      }),
    ),
  );
}

function slipsOf(equations: MeshEquations): readonly Slip[] {
  const { meshes } = equations;
  return [
    ...meshes.flatMap((steps, mesh) => steps.flatMap((step) => inMesh(equations, mesh, step))),
    ...bothRows(equations),
    ...meshForBranch(equations),
  ];
}

/** One term of one mesh's law wrong. */
function inMesh(equations: MeshEquations, mesh: number, { part, direction }: MeshStep): readonly Slip[] {
  const { laws, asked, voltage } = equations;
  const own = direction === 1 ? ONE : negate(ONE);
  const without = (form: Form, times: number): readonly Form[] =>
    laws.with(mesh, plus(laws[mesh] as Form, form, multiply(own, integer(-times))));
  const whole = voltage(part);
  if (part.kind === "current-source") {
    return isShared(equations, part.id)
      ? [{ mistake: mistake("sourceVoltageMissing", [part.id]), laws: without(whole, 1), asked }]
      : [];
  }
  if (part.kind !== "resistor" && part.kind !== "voltage-source") return [];
  const slips: Slip[] = [
    { mistake: mistake("loopTermTurned", [part.id]), laws: without(whole, 2), asked },
    { mistake: mistake("loopTermMissing", [part.id]), laws: without(whole, 1), asked },
  ];
  const mutual = part.kind === "resistor" ? shareOfOthers(equations, part.id, mesh) : null;
  if (mutual === null) return slips;
  return [
    ...slips,
    { mistake: mistake("mutualTermTurned", [part.id]), laws: without(mutual, 2), asked },
    { mistake: mistake("mutualTermMissing", [part.id]), laws: without(mutual, 1), asked },
  ];
}

function isShared({ around }: MeshEquations, id: PartId): boolean {
  return (around.get(id)?.length ?? 0) > 1;
}

/** What another mesh's current adds to the voltage of a resistor; null where no other runs through it. */
function shareOfOthers({ meshes, around, voltage }: MeshEquations, id: PartId, mesh: number): Form | null {
  const step = meshes[mesh]?.find(({ part }) => part.id === id);
  const others = (around.get(id) ?? []).filter((each) => each.mesh !== mesh);
  if (step === undefined || others.length === 0) return null;
  const { terms } = voltage(step.part);
  const kept = others.map(({ mesh: other }) => [other, terms.get(other) ?? ZERO] as const);
  return { terms: new Map(kept), constant: ZERO };
}

/** The share of the neighbouring mesh wrong in the laws of both. */
function bothRows(equations: MeshEquations): readonly Slip[] {
  const { around, laws, asked, meshes } = equations;
  return [...around].flatMap(([id, walks]): Slip[] => {
    if (walks.length !== 2) return [];
    const isResistor = meshes[walks[0]?.mesh ?? 0]?.some(({ part }) => part.id === id && part.kind === "resistor");
    if (!isResistor) return [];
    const wrong = (times: number): readonly Form[] =>
      walks.reduce((rows, { mesh, direction }) => {
        const mutual = shareOfOthers(equations, id, mesh) as Form;
        return rows.with(mesh, plus(rows[mesh] as Form, mutual, integer(-times * direction)));
      }, laws);
    return [
      { mistake: mistake("mutualTermTurned", [id]), laws: wrong(2), asked },
      { mistake: mistake("mutualTermMissing", [id]), laws: wrong(1), asked },
    ];
  });
}

/** One of two mesh currents given for their difference. */
function meshForBranch({ asked, laws, around }: MeshEquations): readonly Slip[] {
  const [only] = [...around].filter(([, walks]) => {
    const meshes = walks.map(({ mesh }) => mesh).sort();
    return walks.length === 2 && meshes.join() === [...asked.terms.keys()].sort().join();
  });
  // Only a current is read off mesh currents alone, each once.
  const isCurrent = [...asked.terms.values()].every(({ n, d }) => d === 1n && (n === 1n || n === -1n));
  if (only === undefined || !isCurrent || asked.terms.size !== 2) return [];
  return [...asked.terms].map(([mesh, sign]) => ({
    mistake: mistake("meshForBranch"),
    laws,
    asked: { terms: new Map([[mesh, sign]]), constant: ZERO },
  }));
}

function exactly({ order, others }: MeshEquations, { laws, asked }: Slip): Amount | null {
  const equations = [...laws, ...others];
  const side = new Map(equations.map(({ constant }, row) => [row, negate(constant)] as const));
  const found = exactArithmetic.solve({ order, rows: equations.map(({ terms }) => terms), rightHandSides: [side] });
  if (!found.ok) return null;
  const value = add(found.solution(0, [...asked.terms]), asked.constant);
  return { constant: { numbers: "exact", value }, phasors: [] };
}

class MeshSolver {
  readonly #system = new DenseSystem();

  rough({ order, others }: MeshEquations, { laws, asked }: Slip): Rough | null {
    const system = this.#system;
    system.begin(order, true);
    const write = ({ terms, constant }: Form, row: number): void => {
      for (const [column, value] of terms) system.add(row, column, toNumber(value));
      system.add(row, order, -toNumber(constant));
    };
    laws.forEach(write);
    others.forEach((form, i) => {
      write(form, laws.length + i);
    });
    if (!system.solve()) return null;
    let largest = 0;
    for (let at = 0; at < order; at++) largest = Math.max(largest, Math.abs(system.xRe[at] as number));
    let [value, slack] = [toNumber(asked.constant), Math.abs(toNumber(asked.constant))];
    for (const [at, coefficient] of asked.terms) {
      value += toNumber(coefficient) * (system.xRe[at] as number);
      slack += Math.abs(toNumber(coefficient)) * largest;
    }
    return roughPoint({ re: value, im: 0 }, 0, ROUNDING * slack);
  }
}
