import { branchOf, type Law, relaid } from "./branch";
import { plainResistors } from "./circuits";
import { degreesOf, polar, scaled, sizeOf } from "./complexNumber";
import type { Dice } from "./dice";
import { mapped, timesOf } from "./question";
import { answered, asking, type Case, caseOf, constantCircuit, sinusoidalCircuit, type Way } from "./way";

/** Mistakes with a value that was right until then, and with a value as it is read. */
export const valueWays: readonly Way[] = [
  { code: "prefixSlip", make: prefixSlip },
  { code: "inputPrefixSlip", make: inputPrefixSlip },
  { code: "peakAndRms", make: peakAndRms },
  { code: "peakToPeak", make: (dice) => onPhasor(dice, peakToPeak) },
  { code: "conjugated", make: (dice) => onPhasor(dice, ({ re, im }) => ({ re, im: -im })) },
  { code: "degreesAsRadians", make: (dice) => onPhasor(dice, inOtherUnit) },
];

function prefixSlip(dice: Dice): Case | null {
  const book = dice.chance(0.2) ? sinusoidalCircuit(dice) : constantCircuit(dice);
  const isPort = dice.chance(0.15);
  const question = isPort
    ? asking(dice, constantCircuit(dice), ["equivalent"], { quantity: "resistance", from: "a", to: "0" })
    : asking(dice, book, ["addend", "group", "total"]);
  const right = question && answered(question);
  return caseOf(question, right && timesOf(right, 1000 ** dice.pick([-2, -1, 1, 2])), []);
}

/** One resistance, inductance or capacitance a thousand times too large or too small. */
function inputPrefixSlip(dice: Dice): Case | null {
  const book = dice.chance(0.2) ? sinusoidalCircuit(dice) : constantCircuit(dice);
  const isPort = dice.chance(0.15);
  const question = isPort
    ? asking(dice, constantCircuit(dice), ["equivalent"], { quantity: "resistance", from: "a", to: "0" })
    : asking(dice, book, ["addend", "group", "total"]);
  if (question === null) return null;
  const { branches } = question;
  const { id } = dice.pick(branches.filter(({ law }) => ["resistor", "inductor", "capacitor"].includes(law.kind)));
  const slipped = withValueTimes(branchOf(branches, id).law, dice.pick([1000, 0.001]));
  return caseOf(question, answered(question, relaid(branches, { [id]: slipped })), [id]);
}

function withValueTimes(law: Law, factor: number): Law {
  if (law.kind === "resistor") return { ...law, ohms: law.ohms * factor };
  if (law.kind === "inductor") return { ...law, henries: law.henries * factor };
  if (law.kind === "capacitor") return { ...law, farads: law.farads * factor };
  return law;
}

/** √2 times too large or too small; a mean power, twice. */
function peakAndRms(dice: Dice): Case | null {
  if (dice.chance(0.8)) return onPhasor(dice, (x, other) => scaled(x, other ? Math.SQRT2 : 1 / Math.SQRT2));
  const book = sinusoidalCircuit(dice);
  const [through] = dice.shuffled(plainResistors(book));
  const question = through === undefined ? null : asking(dice, book, ["total"], { quantity: "power", through });
  const right = question && answered(question);
  return caseOf(question, right && timesOf(right, dice.pick([2, 0.5])), []);
}

type Phasor = Parameters<typeof scaled>[0];

type Measure = "peak" | "rms";
type Change = (x: Phasor, other: boolean, measure: Measure) => Phasor;

function onPhasor(dice: Dice, change: Change): Case | null {
  const measure: Measure = dice.chance(0.3) ? "rms" : "peak";
  const question = asking(dice, sinusoidalCircuit(dice), ["addend", "total"], undefined, measure);
  const right = question && answered(question);
  const other = dice.chance(0.5);
  return caseOf(question, right && mapped(right, (x) => change(x, other, measure)), []);
}

/** From trough to crest, or a value from there taken for one from zero: two peak values, each √2 rms values. */
function peakToPeak(x: Phasor, other: boolean, measure: Measure): Phasor {
  const factor = measure === "rms" ? 2 * Math.SQRT2 : 2;
  return scaled(x, other ? factor : 1 / factor);
}

/** An angle in radians with the sign of degrees behind it, or one in degrees put in where radians are asked for. */
function inOtherUnit(x: Phasor, other: boolean): Phasor {
  return polar(sizeOf(x), degreesOf(x) * (other ? Math.PI / 180 : 180 / Math.PI));
}
