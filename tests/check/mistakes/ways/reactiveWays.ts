import { type Branch, branchOf, isReactive, type Law, relaid } from "./branch";
import { plainResistors, type Textbook } from "./circuits";
import { type Complex, imaginary, real, sizeOf } from "./complexNumber";
import type { Dice } from "./dice";
import { actingOn, mapped, omegaOf, type Question, sourcesOf } from "./question";
import { answered, askedCurrent, asking, type Case, caseOf, constantCircuit, sinusoidalCircuit, type Way } from "./way";

/** Mistakes with capacitors and inductors, and with frequencies and phases of sources. */
export const reactiveWays: readonly Way[] = [
  { code: "reactanceSignTurned", make: (dice) => onReactances(dice, (z) => imaginary(-z.im)) },
  { code: "reactanceAsResistance", make: (dice) => onReactances(dice, (z) => real(sizeOf(z))) },
  { code: "capacitorInverted", make: capacitorInverted },
  { code: "hertzAsRadians", make: hertzAsRadians },
  { code: "otherFrequency", make: otherFrequency },
  { code: "sourcePhaseMissing", make: sourcePhaseMissing },
  { code: "sineAsCosine", make: sineAsCosine },
  { code: "capacitorsLikeResistors", make: capacitorsLikeResistors },
  { code: "reactiveSwapped", make: reactiveSwapped },
];

/** The impedance of a coil or a capacitor. */
function impedanceOf({ id, law }: Branch, omega: number): Complex {
  if (law.kind === "inductor") return imaginary(omega * law.henries);
  if (law.kind === "capacitor") return imaginary(-1 / (omega * law.farads));
  throw new Error(`${id} has no reactance`);
}

function withImpedances(
  branches: readonly Branch[],
  ids: readonly string[],
  of: (branch: Branch) => Complex,
): Branch[] {
  const laws = ids.map((id): [string, Law] => [id, { kind: "impedance", z: of(branchOf(branches, id)) }]);
  return relaid(branches, Object.fromEntries(laws));
}

/** A phasor, or now and then the impedance seen from two nodes. */
function phasorQuestion(dice: Dice, book: Textbook): Question | null {
  if (dice.chance(0.15)) return asking(dice, book, ["equivalent"], { quantity: "impedance", from: "a", to: "0" });
  return asking(dice, book, ["addend", "addend", "total"]);
}

/** One of some parts, or all of them. */
const someOf = (dice: Dice, ids: readonly string[]): readonly string[] => (dice.chance(0.3) ? ids : [dice.pick(ids)]);

function onReactances(dice: Dice, change: (z: Complex) => Complex): Case | null {
  const question = phasorQuestion(dice, sinusoidalCircuit(dice));
  if (question === null) return null;
  const { branches } = question;
  const omega = omegaOf(branches, sourcesOf(branches)[0] ?? "");
  const ids = someOf(
    dice,
    branches.filter(isReactive).map(({ id }) => id),
  );
  const wrong = answered(
    question,
    withImpedances(branches, ids, (branch) => change(impedanceOf(branch, omega))),
  );
  return caseOf(question, wrong, ids);
}

/** jωC for 1/(jωC). */
function capacitorInverted(dice: Dice): Case | null {
  const question = phasorQuestion(
    dice,
    sinusoidalCircuit(dice, { include: [dice.pick(["condenser", "capacitor"] as const)] }),
  );
  if (question === null) return null;
  const { branches } = question;
  const omega = omegaOf(branches, sourcesOf(branches)[0] ?? "");
  const capacitors = branches.filter(({ law }) => law.kind === "capacitor").map(({ id }) => id);
  const ids = someOf(dice, capacitors);
  const inverted = ({ law }: Branch): Complex => imaginary(law.kind === "capacitor" ? omega * law.farads : 0);
  return caseOf(question, answered(question, withImpedances(branches, ids, inverted)), ids);
}

/** Impedances at a number of hertz put in for ω, or at 2π times an ω; the source keeps its frequency. */
function hertzAsRadians(dice: Dice): Case | null {
  const hertz = dice.pick([50, 60, 100, 200, 400]);
  const isGivenInHertz = dice.chance(0.5);
  const omega = isGivenInHertz ? 2 * Math.PI * hertz : dice.pick([500, 800, 1000, 1500, 2000]);
  const question = phasorQuestion(dice, sinusoidalCircuit(dice, { omegas: [omega] }));
  return question && atFrequency(dice, question, isGivenInHertz ? hertz : 2 * Math.PI * omega, []);
}

/** An addend with the impedances at the frequency of another source. */
function otherFrequency(dice: Dice): Case | null {
  const book = sinusoidalCircuit(dice, {
    omegas: dice.pick([
      [500, 2000],
      [1000, 1500],
      [1000, 3000],
    ]),
  });
  const question = asking(dice, book, ["addend"], askedCurrent(dice, plainResistors(book)));
  const [other] = book.branches
    .map(({ id }) => id)
    .filter((id) => question !== null && sourcesOf(book.branches).includes(id) && !actingOn(question).includes(id));
  if (question === null || other === undefined) return null;
  return atFrequency(dice, question, omegaOf(book.branches, other), [other]);
}

function atFrequency(dice: Dice, question: Question, omega: number, parts: readonly string[]): Case | null {
  const { branches } = question;
  const ids = branches.filter(isReactive).map(({ id }) => id);
  const wrong = answered(
    question,
    withImpedances(branches, ids, (branch) => impedanceOf(branch, omega)),
  );
  const form = question.asked.quantity === "impedance" ? "phasor" : dice.pick(["phasor", "time"] as const);
  return caseOf(question, wrong, parts, { form });
}

/** A source taken a quarter of a turn early or late. */
function sineAsCosine(dice: Dice): Case | null {
  const quarter = dice.pick([90, -90]);
  return withOtherPhase(dice, (degrees) => degrees + quarter);
}

/** One source as if it had no phase. */
function sourcePhaseMissing(dice: Dice): Case | null {
  return withOtherPhase(dice, (degrees) => (degrees === 0 ? null : 0));
}

/** One source of those that act with another phase; null where it can't have that one. */
function withOtherPhase(dice: Dice, phase: (degrees: number) => number | null): Case | null {
  const question = asking(dice, sinusoidalCircuit(dice), ["addend", "total"]);
  if (question === null) return null;
  const id = dice.pick(actingOn(question));
  const { law } = branchOf(question.branches, id);
  if (law.kind !== "voltage-source" && law.kind !== "current-source") return null;
  const degrees = phase(law.wave.degrees);
  if (degrees === null) return null;
  const wave = { ...law.wave, degrees };
  return caseOf(question, answered(question, relaid(question.branches, { [id]: { ...law, wave } })), [id]);
}

/** Two capacitors in series added, or two in parallel by product over sum. */
function capacitorsLikeResistors(dice: Dice): Case | null {
  const kind = dice.pick(["capacitorsInSeries", "capacitorsInParallel"] as const);
  const book = sinusoidalCircuit(dice, { include: [kind], fillers: ["resistor", "resistor", "coil"] });
  const question = asking(dice, book, ["addend", "total"]);
  const pair = book.slots.find((slot) => slot.kind === kind)?.ids ?? [];
  const [a = "", b = ""] = pair;
  const farads = (id: string): number => {
    const { law } = branchOf(book.branches, id);
    return law.kind === "capacitor" ? law.farads : 0;
  };
  const [x, y] = [farads(a), farads(b)];
  if (question === null || x === 0 || y === 0) return null;
  const isSeries = kind === "capacitorsInSeries";
  const one: Law = { kind: "capacitor", farads: isSeries ? x + y : (x * y) / (x + y) };
  const wrong = answered(question, relaid(question.branches, { [a]: one, [b]: { kind: isSeries ? "short" : "open" } }));
  return caseOf(question, wrong, pair);
}

/** Constant sources: capacitors as shorts and inductors as opens. */
function reactiveSwapped(dice: Dice): Case | null {
  const include = [dice.pick(["coil", "inductor", "condenser", "capacitor"] as const)];
  const book = constantCircuit(dice, { include, fillers: ["resistor", "resistor", "resistors", "coil", "condenser"] });
  const question = asking(dice, book, ["addend", "group", "total"]);
  if (question === null) return null;
  const reactive = book.branches.filter(isReactive);
  const laws = reactive.map(({ id, law }): [string, Law] => [
    id,
    { kind: law.kind === "capacitor" ? "short" : "open" },
  ]);
  const wrong = answered(question, relaid(book.branches, Object.fromEntries(laws)));
  return caseOf(
    question,
    wrong && mapped(wrong, ({ re }) => real(re)),
    reactive.map(({ id }) => id),
  );
}
