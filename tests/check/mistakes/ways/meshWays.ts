import { branchOf, isSource } from "./branch";
import { real } from "./complexNumber";
import type { Dice } from "./dice";
import { isCurrentSource, type LoopTerm, type Meshed, meshCurrents, meshedCircuit, partsOf, walksOf } from "./meshes";
import { actingOn, type Question } from "./question";
import { asking, type Case, caseOf, otherSources, type Way } from "./way";

/** Mistakes in writing mesh equations, and in reading a current off mesh currents. */
export const meshWays: readonly Way[] = [
  { code: "loopTermTurned", make: (dice) => inOneLaw(dice, "turned") },
  { code: "loopTermMissing", make: (dice) => inOneLaw(dice, "missing") },
  { code: "mutualTermTurned", make: (dice) => withOtherMesh(dice, "otherMeshTurned") },
  { code: "mutualTermMissing", make: (dice) => withOtherMesh(dice, "otherMeshMissing") },
  { code: "sourceVoltageMissing", make: sourceVoltageMissing },
  { code: "meshForBranch", make: meshForBranch },
];

type Asked = { readonly meshed: Meshed; readonly question: Question; readonly through: string };

/** A current through a resistor of a circuit with meshes. Where a current source is zeroed the meshes would be others. */
function meshQuestion(dice: Dice): Asked | null {
  const meshed = meshedCircuit(dice);
  const { branches } = meshed;
  const through = dice.pick(branches.filter(({ law }) => law.kind === "resistor")).id;
  const asked = { quantity: "current", through, isBackward: dice.chance(0.5) } as const;
  const question = asking(dice, { branches, slots: [], main: [] }, ["addend", "total"], asked);
  if (question === null || otherSources(question).some((id) => isCurrentSource(branches, id))) return null;
  return { meshed, question, through };
}

/** The current asked for, from mesh currents, or from some of them. */
function readOff({ meshed, question, through }: Asked, currents: readonly number[] | null, among = currents?.keys()) {
  if (currents === null) return null;
  const taken = [...(among ?? [])];
  const terms = walksOf(meshed, through).map(({ mesh, sign }) =>
    taken.includes(mesh) ? sign * (currents[mesh] ?? 0) : 0,
  );
  const isBackward = question.asked.quantity === "current" && question.asked.isBackward;
  return new Map([[0, real((isBackward ? -1 : 1) * terms.reduce((sum, term) => sum + term, 0))]]);
}

/** One term of one mesh's law turned or left out. */
function inOneLaw(dice: Dice, term: LoopTerm): Case | null {
  const asked = meshQuestion(dice);
  if (asked === null) return null;
  const { meshed, question } = asked;
  const off = otherSources(question);
  const mesh = dice.pick([...meshed.meshes.keys()]);
  const parts = partsOf(meshed.branches, meshed.meshes[mesh] ?? [], off);
  const id = dice.pick(parts.filter((each) => !isCurrentSource(meshed.branches, each)));
  const currents = meshCurrents(meshed, actingOn(question), (at, each) =>
    at === mesh && each === id ? term : "asItIs",
  );
  return caseOf(question, readOff(asked, currents), [id]);
}

/** The share of the neighbouring mesh wrong in a resistor that two meshes share: in the law of one of them, or of both. */
function withOtherMesh(dice: Dice, term: LoopTerm): Case | null {
  const asked = meshQuestion(dice);
  if (asked === null) return null;
  const { meshed, question } = asked;
  const shared = meshed.branches.filter(({ id, law }) => law.kind === "resistor" && walksOf(meshed, id).length > 1);
  if (shared.length === 0) return null;
  const { id } = dice.pick(shared);
  const [first] = walksOf(meshed, id);
  const isBoth = dice.chance(0.5);
  const currents = meshCurrents(meshed, actingOn(question), (at, each) =>
    each === id && (isBoth || at === first?.mesh) ? term : "asItIs",
  );
  return caseOf(question, readOff(asked, currents), [id]);
}

/** The voltage of a current source that two meshes share left out of the law of one of them. */
function sourceVoltageMissing(dice: Dice): Case | null {
  const asked = meshQuestion(dice);
  if (asked === null) return null;
  const { meshed, question } = asked;
  const source = meshed.branches.find((branch) => isSource(branch) && walksOf(meshed, branch.id).length > 1);
  if (source === undefined || branchOf(meshed.branches, source.id).law.kind !== "current-source") return null;
  const { mesh } = dice.pick(walksOf(meshed, source.id));
  const currents = meshCurrents(meshed, actingOn(question), (at, id) =>
    at === mesh && id === source.id ? "missing" : "asItIs",
  );
  return caseOf(question, readOff(asked, currents), [source.id]);
}

/** One of two mesh currents given for that in the branch that both run through. */
function meshForBranch(dice: Dice): Case | null {
  const asked = meshQuestion(dice);
  if (asked === null) return null;
  const walks = walksOf(asked.meshed, asked.through);
  if (walks.length < 2) return null;
  const currents = meshCurrents(asked.meshed, actingOn(asked.question));
  return caseOf(asked.question, readOff(asked, currents, [dice.pick(walks).mesh].values()), []);
}
