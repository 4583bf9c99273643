import type { Circuit, PartId, Wanted } from "../../circuit";
import { add, integer, negate, toNumber, ZERO } from "../../quantity";
import type { Amount } from "../../solve";
import { exactArithmetic } from "../../solve/arithmetic";
import { DenseSystem } from "./denseSystem";
import { type Form, type MeshEquations, type MeshStep, meshEquations, plus } from "./meshes";
import { type Mistake, mistake } from "./mistake";
import { withoutWires } from "./reduction";
import { type Rough, roughPoint } from "./rough";
import { type Candidate, once } from "./target";

/** Something taken out of the laws of some meshes, so many times, or what is read off for the answer wrong. */
type Slip = { readonly mistake: Mistake; readonly taken: readonly Taken[]; readonly asked: Form };
type Taken = { readonly mesh: number; readonly form: Form; readonly times: number };

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
    slipsOf(equations).flatMap((slip): readonly Candidate[] => {
      const rough = isRough ? solver.rough(equations, slip) : null;
      if (isRough && rough === null) return [];
      return [{ mistake: slip.mistake, rough, amount: once(() => exactly(equations, slip)) }];
    }),
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
  const { asked, voltage } = equations;
  const without = (form: Form, times: number): readonly Taken[] => [{ mesh, form, times: direction * times }];
  const whole = voltage(part);
  if (part.kind === "current-source") {
    return isShared(equations, part.id)
      ? [{ mistake: mistake("sourceVoltageMissing", [part.id]), taken: without(whole, 1), asked }]
      : [];
  }
  if (part.kind !== "resistor" && part.kind !== "voltage-source") return [];
  const slips: Slip[] = [
    { mistake: mistake("loopTermTurned", [part.id]), taken: without(whole, 2), asked },
    { mistake: mistake("loopTermMissing", [part.id]), taken: without(whole, 1), asked },
  ];
  const mutual = part.kind === "resistor" ? shareOfOthers(equations, part.id, mesh) : null;
  if (mutual === null) return slips;
  return [
    ...slips,
    { mistake: mistake("mutualTermTurned", [part.id]), taken: without(mutual, 2), asked },
    { mistake: mistake("mutualTermMissing", [part.id]), taken: without(mutual, 1), asked },
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
  const { around, asked, meshes } = equations;
  return [...around].flatMap(([id, walks]): Slip[] => {
    if (walks.length !== 2) return [];
    const isResistor = meshes[walks[0]?.mesh ?? 0]?.some(({ part }) => part.id === id && part.kind === "resistor");
    if (!isResistor) return [];
    const wrong = (times: number): readonly Taken[] =>
      walks.map(({ mesh, direction }) => {
        return { mesh, form: shareOfOthers(equations, id, mesh) as Form, times: direction * times };
      });
    return [
      { mistake: mistake("mutualTermTurned", [id]), taken: wrong(2), asked },
      { mistake: mistake("mutualTermMissing", [id]), taken: wrong(1), asked },
    ];
  });
}

/** One of two mesh currents given for their difference. */
function meshForBranch({ asked, around }: MeshEquations): readonly Slip[] {
  const [only] = [...around].filter(([, walks]) => {
    const meshes = walks.map(({ mesh }) => mesh).sort();
    return walks.length === 2 && meshes.join() === [...asked.terms.keys()].sort().join();
  });
  // Only a current is read off mesh currents alone, each once.
  const isCurrent = [...asked.terms.values()].every(({ n, d }) => d === 1n && (n === 1n || n === -1n));
  if (only === undefined || !isCurrent || asked.terms.size !== 2) return [];
  return [...asked.terms].map(([mesh, sign]) => ({
    mistake: mistake("meshForBranch"),
    taken: [],
    asked: { terms: new Map([[mesh, sign]]), constant: ZERO },
  }));
}

function exactly({ order, laws, others }: MeshEquations, { taken, asked }: Slip): Amount | null {
  const wrong = taken.reduce<readonly Form[]>(
    (rows, { mesh, form, times }) => rows.with(mesh, plus(rows[mesh] as Form, form, integer(-times))),
    laws,
  );
  const equations = [...wrong, ...others];
  const side = new Map(equations.map(({ constant }, row) => [row, negate(constant)] as const));
  const found = exactArithmetic.solve({ order, rows: equations.map(({ terms }) => terms), rightHandSides: [side] });
  if (!found.ok) return null;
  const value = add(found.solution(0, [...asked.terms]), asked.constant);
  return { constant: { numbers: "exact", value }, phasors: [] };
}

class MeshSolver {
  readonly #system = new DenseSystem();

  rough({ order, laws, others }: MeshEquations, { taken, asked }: Slip): Rough | null {
    const system = this.#system;
    system.begin(order, true);
    const write = ({ terms, constant }: Form, row: number, times = 1): void => {
      for (const [column, value] of terms) system.add(row, column, times * toNumber(value));
      system.add(row, order, -times * toNumber(constant));
    };
    laws.forEach((form, row) => {
      write(form, row);
    });
    for (const { mesh, form, times } of taken) write(form, mesh, -times);
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
