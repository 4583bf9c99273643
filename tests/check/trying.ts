import { givensOf, type Judgement, type JudgingRules, judge, rightValue, USUAL_RULES } from "../../shared/check";
import type { Circuit } from "../../shared/circuit";
import type { UnitSymbol } from "../../shared/quantity";
import { type Shown, solveCircuit, solveReport } from "../../shared/solve";
import type { CircuitJson } from "../generators/circuits";
import type { RawElement } from "../independent/elements";
import { circuitOf } from "../solve/solved";

export type Question = {
  readonly elements: readonly RawElement[];
  readonly wanted: CircuitJson["wanted"][number];
  /** The sources of the addend asked for; null asks for the total. */
  readonly acting: readonly string[] | null;
};

/** Judges texts as answers to a question about a circuit that is written as a file has it. */
export function asking(question: Question, rules: JudgingRules = USUAL_RULES): (text: string) => Judgement {
  const { elements, wanted } = question;
  const circuit = circuitOf({
    format: "addend-circuit",
    version: 1,
    elements,
    reference: "0",
    wanted: [wanted],
  });
  const [answer] = answersOf(circuit).filter(({ acting }) => acting?.join() === question.acting?.join());
  if (!answer) throw new Error("the question has no answer");
  return (text) => answer.judged(text, rules);
}

export type Answered = {
  readonly acting: readonly string[] | null;
  readonly shown: Shown;
  readonly judged: (text: string, rules?: JudgingRules) => Judgement;
};

/** Every addend and total of a circuit, with the way to judge texts as answers to it. */
export function answersOf(circuit: Circuit): readonly Answered[] {
  const { measure } = solveCircuit(circuit);
  const givens = givensOf(circuit, measure);
  return solveReport(circuit).wanted.flatMap(({ name, unit, total, addends }) => {
    const whole = total === null ? [] : [{ acting: null, shown: total }];
    return [...whole, ...addends.map(({ sources, value }) => ({ acting: sources, shown: value }))].map((each) => ({
      ...each,
      judged: (text: string, rules = USUAL_RULES) =>
        judge(text, { givens, measure, name }, rightValue(each.shown, unit as UnitSymbol), rules),
    }));
  });
}

/** Every text that takes one of each list, in order. */
export function everyWay(...lists: readonly (readonly string[])[]): string[] {
  return lists.reduce<string[]>((texts, list) => texts.flatMap((text) => list.map((next) => text + next)), [""]);
}

export const ladder = [
  { id: "V1", kind: "voltage-source", nodes: ["p", "0"], value: "10 V" },
  { id: "R1", kind: "resistor", nodes: ["p", "a"], value: "4 kΩ" },
  { id: "R2", kind: "resistor", nodes: ["a", "0"], value: "7 kΩ" },
  { id: "I1", kind: "current-source", nodes: ["0", "a"], value: "5 mA" },
];
const against = { name: "Ix", quantity: "current", through: "R2", from: "0", to: "a" };
const across = { name: "Va", quantity: "voltage", from: "a", to: "0" };

/** I1 alone: −5 mA · 4/11 = −20/11 mA = −1.81818… mA, current division. */
export const divided: Question = { elements: ladder, wanted: against, acting: ["I1"] };
/** V1 alone: −10 V / 11 kΩ = −10/11 mA. */
export const looped: Question = { elements: ladder, wanted: against, acting: ["V1"] };
/** Both: −30/11 mA = −2.72727… mA. */
export const summed: Question = { elements: ladder, wanted: against, acting: null };
/** V1 alone: 10 V · 7/11 = 70/11 V = 6.3636… V, voltage division. */
export const dividedVoltage: Question = { elements: ladder, wanted: across, acting: ["V1"] };

/** Seen from a and 0: 4 kΩ ∥ 7 kΩ = 28/11 kΩ = 2.54545… kΩ. */
export const resistance: Question = {
  elements: ladder,
  wanted: { name: "Rx", quantity: "resistance", from: "a", to: "0" },
  acting: null,
};

/**
 * 10 V ∠ 0° at 1000 rad/s behind 3 kΩ and 4 H: 10 V / (3 + 4j) kΩ = 2 mA ∠ −53.13° = 1.2 − 1.6j mA.
 */
export const phasor: Question = {
  elements: [
    { id: "V1", kind: "voltage-source", nodes: ["p", "0"], value: "10 V ∠ 0° @ 1000 rad/s" },
    { id: "R1", kind: "resistor", nodes: ["p", "a"], value: "3 kΩ" },
    { id: "L1", kind: "inductor", nodes: ["a", "0"], value: "4 H" },
  ],
  wanted: { name: "Iz", quantity: "current", through: "R1", from: "p", to: "a" },
  acting: null,
};

/** 6 V and 5 V ∠ 30° at 50 Hz in series over 2 Ω: 3 A + 2.5 cos(100π t + 30°) A. */
export const inTime: Question = {
  elements: [
    { id: "V1", kind: "voltage-source", nodes: ["p", "0"], value: "6 V" },
    { id: "V2", kind: "voltage-source", nodes: ["a", "p"], value: "5 V ∠ 30° @ 50 Hz" },
    { id: "R1", kind: "resistor", nodes: ["a", "0"], value: "2 Ω" },
  ],
  wanted: { name: "It", quantity: "current", through: "R1", from: "a", to: "0" },
  acting: null,
};
