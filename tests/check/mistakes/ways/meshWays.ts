import { type Branch, branchOf, ohmsOf } from "./branch";
import type { Slot, Textbook } from "./circuits";
import { polar, real } from "./complexNumber";
import type { Dice } from "./dice";
import { actingOn, type Question } from "./question";
import { answered, askedCurrent, asking, type Case, caseOf, constantCircuit, otherSources, type Way } from "./way";

/**
 * Wrong mesh equations, on circuits of three rows of parts between the nodes a and 0: the meshes are a first row with the
 * second and the second with a third. By hand: the currents of the first and the third row are the unknowns, both counted
 * from a to 0, and what is left flows in the second.
 */
export const meshWays: readonly Way[] = [
  { code: "loopTermTurned", isBehind: true, make: (dice) => inLoop(dice, 2) },
  { code: "loopTermMissing", isBehind: true, make: (dice) => inLoop(dice, 1) },
  { code: "mutualTermTurned", isBehind: true, make: (dice) => betweenMeshes(dice, 2) },
  { code: "mutualTermMissing", isBehind: true, make: (dice) => betweenMeshes(dice, 1) },
  { code: "sourceVoltageMissing", isBehind: true, make: sourceVoltageMissing },
  { code: "meshForBranch", isBehind: true, make: meshForBranch },
  { code: "sourceCurrentMissing", make: sourceCurrentMissing },
];

/** A part in its row: 1 where it runs from a to 0, and what it adds to the row's voltage for a current from a to 0. */
type Term = { readonly id: string; readonly along: 1 | -1; readonly drop: (current: number) => number };
type Row = { readonly terms: readonly Term[]; readonly current: number | null };

type Setting = {
  readonly question: Question;
  /** The first row, the one between the meshes, and the third. */
  readonly rows: readonly [Row, Row, Row];
};

function setting(dice: Dice, isMiddle: (row: Row) => boolean = () => true): Setting | null {
  const book = constantCircuit(dice, { nodes: 1, count: 2 });
  if (book.slots.length !== 3) return null;
  const asked = askedCurrent(dice, resistorsOf(book));
  const question = asking(dice, book, ["total", "total", "addend"], asked);
  if (question === null || question.asked.quantity !== "current") return null;
  const live = liveRows(book, question);
  const able = live?.filter(isMiddle) ?? [];
  if (live === null || able.length === 0) return null;
  const second = dice.pick(able);
  const [first, third] = dice.shuffled(live.filter((row) => row !== second));
  if (first === undefined || third === undefined) return null;
  return first.current === null && third.current === null ? { question, rows: [first, second, third] } : null;
}

function resistorsOf({ branches }: Textbook): string[] {
  return branches.filter(({ law }) => law.kind === "resistor").map(({ id }) => id);
}

/** The rows with their sources on or off; null where a current source that is off leaves a gap. */
function liveRows({ branches, slots }: Textbook, question: Question): Row[] | null {
  const off = otherSources(question);
  const rows = slots.map(({ ids }): Row | null => {
    const current = ids.map((id) => branchOf(branches, id)).find(({ law }) => law.kind === "current-source");
    if (current && off.includes(current.id)) return null;
    const terms = inOrder(branches, ids).map(({ branch, along }) => termOf(branch, along, off.includes(branch.id)));
    return {
      terms: terms.flatMap((term) => term ?? []),
      current: current ? given(current) * alongOf(terms, current.id) : null,
    };
  });
  const live = rows.flatMap((row) => row ?? []);
  return live.length === rows.length ? live : null;
}

function alongOf(terms: readonly (Term | null)[], id: string): number {
  return terms.find((term) => term?.id === id)?.along ?? 1;
}

/** The parts of a row from a on, each with the direction in which it stands. */
function inOrder(branches: readonly Branch[], ids: Slot["ids"]): { readonly branch: Branch; readonly along: 1 | -1 }[] {
  const left = ids.map((id) => branchOf(branches, id));
  const found: { branch: Branch; along: 1 | -1 }[] = [];
  for (let node = "a"; left.length > 0; ) {
    const at = left.findIndex(({ from, to }) => from === node || to === node);
    const [branch] = left.splice(Math.max(at, 0), 1);
    if (branch === undefined) break;
    const along = branch.from === node ? 1 : -1;
    found.push({ branch, along });
    node = along === 1 ? branch.to : branch.from;
  }
  return found;
}

function given({ law }: Branch): number {
  return law.kind === "voltage-source" || law.kind === "current-source" ? polar(law.wave.peak, law.wave.degrees).re : 0;
}

/** Null for a source that is off: a piece of wire, which no term is written for. */
function termOf(branch: Branch, along: 1 | -1, isOff: boolean): Term | null {
  const { id, law } = branch;
  if (law.kind === "resistor") return { id, along, drop: (current) => law.ohms * current };
  if (law.kind === "voltage-source") return isOff ? null : { id, along, drop: () => along * given(branch) };
  return { id, along, drop: () => 0 };
}

const voltage = ({ terms }: Row, current: number): number =>
  terms.reduce((total, { drop }) => total + drop(current), 0);

/** Two numbers for which two linear functions of them are 0; null where there are none, or many. */
function solved(f: Linear, g: Linear): readonly [number, number] | null {
  const [f0, g0] = [f(0, 0), g(0, 0)];
  const [fx, fz, gx, gz] = [f(1, 0) - f0, f(0, 1) - f0, g(1, 0) - g0, g(0, 1) - g0];
  const determinant = fx * gz - fz * gx;
  const size = Math.abs(fx * gz) + Math.abs(fz * gx);
  if (Math.abs(determinant) <= 1e-9 * size) return null;
  return [(fz * g0 - gz * f0) / determinant, (gx * f0 - fx * g0) / determinant];
}
type Linear = (first: number, third: number) => number;

/** The current asked for, with these in the first and the third row. */
function readOff({ question, rows }: Setting, currents: readonly [number, number]): Case["wrong"] | null {
  const { asked } = question;
  if (asked.quantity !== "current") return null;
  const [first, third] = currents;
  const all = [first, -first - third, third];
  const place = rows.findIndex(({ terms }) => terms.some(({ id }) => id === asked.through));
  const along = alongOf(rows[place]?.terms ?? [], asked.through);
  const current = (all[place] ?? 0) * along;
  return new Map([[0, real(asked.isBackward ? -current : current)]]);
}

const isPlain = ({ current }: Row): boolean => current === null;

/** A term of the first mesh taken out of its equation, once or, with the other sign, twice. */
function inLoop(dice: Dice, times: 1 | 2): Case | null {
  const found = setting(dice, isPlain);
  if (found === null) return null;
  const [first, second, third] = found.rows;
  const inFirst = dice.chance(0.6);
  const term = dice.pick((inFirst ? first : second).terms);
  const wrong = solved(
    (x, z) => {
      const taken = inFirst ? term.drop(x) : -term.drop(-x - z);
      return voltage(first, x) - voltage(second, -x - z) - times * taken;
    },
    (x, z) => voltage(third, z) - voltage(second, -x - z),
  );
  return wrong && caseOf(found.question, readOff(found, wrong), [term.id]);
}

/** The other mesh's share of a resistor between the meshes taken out, in one of the two equations or in both. */
function betweenMeshes(dice: Dice, times: 1 | 2): Case | null {
  const found = setting(dice, isPlain);
  if (found === null) return null;
  const { branches } = found.question;
  const [first, second, third] = found.rows;
  const resistors = second.terms.filter(({ id }) => branchOf(branches, id).law.kind === "resistor");
  if (resistors.length === 0) return null;
  const { id } = dice.pick(resistors);
  const ohms = ohmsOf(branches, id);
  const inBoth = dice.chance(0.5) ? 1 : 0;
  // V of the second row is −R (x + z): to the first mesh z is the other's share, to the second x is.
  const wrong = solved(
    (x, z) => voltage(first, x) - voltage(second, -x - z) - times * ohms * z,
    (x, z) => voltage(third, z) - voltage(second, -x - z) - inBoth * times * ohms * x,
  );
  return wrong && caseOf(found.question, readOff(found, wrong), [id]);
}

/** A current source between the meshes, with no voltage across it in the equation of the first. */
function sourceVoltageMissing(dice: Dice): Case | null {
  const found = setting(dice, (row) => row.current !== null);
  if (found === null) return null;
  const [first, second] = found.rows;
  const fixed = second.current ?? 0;
  const source = second.terms.find(({ id }) => branchOf(found.question.branches, id).law.kind === "current-source");
  const wrong = solved(
    (x) => voltage(first, x) - voltage(second, fixed),
    (x, z) => x + z + fixed,
  );
  return wrong && source ? caseOf(found.question, readOff(found, wrong), [source.id]) : null;
}

/** The current around one mesh for that in the row between the two. */
function meshForBranch(dice: Dice): Case | null {
  const found = setting(dice, isPlain);
  if (found === null) return null;
  const { asked } = found.question;
  const [first, second, third] = found.rows;
  if (asked.quantity !== "current" || !second.terms.some(({ id }) => id === asked.through)) return null;
  const right = solved(
    (x, z) => voltage(first, x) - voltage(second, -x - z),
    (x, z) => voltage(third, z) - voltage(second, -x - z),
  );
  if (right === null) return null;
  const [x, z] = right;
  return caseOf(found.question, readOff(found, dice.chance(0.5) ? [x, 0] : [0, z]), []);
}

/** The current of a voltage source between two main nodes left out at one of them. */
function sourceCurrentMissing(dice: Dice): Case | null {
  const book = constantCircuit(dice, { nodes: 2, count: 1, include: ["heldVoltage"] });
  const question = asking(dice, book, ["addend", "total"]);
  const slot = book.slots.find(({ kind }) => kind === "heldVoltage");
  const [source = ""] = slot?.ids ?? [];
  if (question === null || slot === undefined || [slot.from, slot.to].includes("0")) return null;
  if (!actingOn(question).includes(source)) return null;
  const node = dice.pick([slot.from, slot.to]);
  const wrong = answered(question, question.branches, (at, branch) =>
    at === node && branch.id === source ? "missing" : "asItIs",
  );
  return caseOf(question, wrong, [source], { node });
}
