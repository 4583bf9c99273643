import { type Law, relaid } from "./branch";
import { real } from "./complexNumber";
import type { Dice } from "./dice";
import { actingOn, type Question, sourcesOf, timesOf, valueIn } from "./question";
import {
  answered,
  asking,
  type Case,
  caseOf,
  constantCircuit,
  isVoltageSource,
  otherSources,
  sinusoidalCircuit,
  type Way,
} from "./way";

const SHORT: Law = { kind: "short" };
const OPEN: Law = { kind: "open" };

/** Mistakes with the reference direction, and with what becomes of the sources of the circuit. */
export const zeroingWays: readonly Way[] = [
  { code: "signTurned", make: signTurned },
  { code: "polarityTurned", make: polarityTurned },
  { code: "sourceLeftOn", make: sourceLeftOn },
  { code: "everySourceLeftOn", make: everySourceLeftOn },
  { code: "voltageSourceOpened", make: (dice) => zeroedWrongly(dice, "voltage") },
  { code: "currentSourceShorted", make: (dice) => zeroedWrongly(dice, "current") },
  { code: "zeroingSwapped", make: zeroingSwapped },
  { code: "actingZeroed", make: actingZeroed, isZero: true },
];

function signTurned(dice: Dice): Case | null {
  const book = dice.chance(0.2) ? sinusoidalCircuit(dice) : constantCircuit(dice);
  const question = asking(dice, book, ["addend", "addend", "group", "total"]);
  const right = question && answered(question);
  return caseOf(question, right && timesOf(right, -1), []);
}

/** On a total or a group: one of its sources gives the other sign. */
function polarityTurned(dice: Dice): Case | null {
  const question = asking(dice, constantCircuit(dice), ["total", "group"]);
  if (question === null) return null;
  const on = actingOn(question);
  const turned = dice.pick(on);
  const others = valueIn(
    question.branches,
    question.asked,
    on.filter((id) => id !== turned),
  );
  const own = valueIn(question.branches, question.asked, [turned]);
  if (others === null || own === null) return null;
  return { question, wrong: new Map([[0, { re: difference(others, own), im: 0 }]]), parts: [turned] };
}

type Constant = ReadonlyMap<number, { readonly re: number }>;
const difference = (a: Constant, b: Constant): number => (a.get(0)?.re ?? 0) - (b.get(0)?.re ?? 0);

/** An addend of one source, or of a group, where others are left. */
function addendQuestion(dice: Dice, count?: number): Question | null {
  const book = constantCircuit(dice, count === undefined ? {} : { count });
  return asking(dice, book, ["addend", "addend", "group"]);
}

function sourceLeftOn(dice: Dice): Case | null {
  const question = addendQuestion(dice);
  if (question === null) return null;
  const on = dice.pick(otherSources(question));
  return caseOf(question, valueIn(question.branches, question.asked, [...actingOn(question), on]), [on]);
}

function everySourceLeftOn(dice: Dice): Case | null {
  const question = asking(dice, constantCircuit(dice, { count: 3 }), ["addend"]);
  if (question === null) return null;
  return caseOf(
    question,
    valueIn(question.branches, question.asked, sourcesOf(question.branches)),
    otherSources(question),
  );
}

/** One zeroed source of a kind becomes what the other kind becomes, or all of them do. */
function zeroedWrongly(dice: Dice, kind: "voltage" | "current"): Case | null {
  const question = addendQuestion(dice);
  if (question === null) return null;
  const { branches } = question;
  const able = otherSources(question).filter((id) => isVoltageSource(branches, id) === (kind === "voltage"));
  if (able.length === 0) return null;
  const parts = dice.chance(0.3) ? able : [dice.pick(able)];
  const law = kind === "voltage" ? OPEN : SHORT;
  const wrong = answered(question, relaid(branches, Object.fromEntries(parts.map((id) => [id, law]))));
  return caseOf(question, wrong, parts);
}

function zeroingSwapped(dice: Dice): Case | null {
  const question = asking(dice, constantCircuit(dice, { count: 3 }), ["addend"]);
  if (question === null) return null;
  const { branches } = question;
  const others = otherSources(question);
  if (new Set(others.map((id) => isVoltageSource(branches, id))).size < 2) return null;
  const laws = Object.fromEntries(others.map((id) => [id, isVoltageSource(branches, id) ? OPEN : SHORT]));
  return caseOf(question, answered(question, relaid(branches, laws)), others);
}

/** Nothing acts: 0, whatever the circuit. */
function actingZeroed(dice: Dice): Case | null {
  const question = addendQuestion(dice);
  return caseOf(question, new Map([[0, real(0)]]), question?.acting ?? null);
}
