import type { MistakeCode } from "../../../../shared/check/mistakes";
import { type Branch, branchOf } from "./branch";
import { plainResistors, sourceIds, type Textbook, textbook, type Wishes } from "./circuits";
import { sizeOf } from "./complexNumber";
import type { Dice } from "./dice";
import { type Asked, actingOn, addendsOf, type Line, onlyOf, type Question, type Value, valueIn } from "./question";
import type { NodeLaw } from "./solved";
import type { Hand } from "./written";

/** A question, and the value that somebody gets who makes one mistake on the way. */
export type Case = {
  readonly question: Question;
  readonly wrong: Value;
  /** The parts that it is made on, in any order; null where the catalogue may name others as well. */
  readonly parts: readonly string[] | null;
  readonly node?: string;
  /** How the value is written; else as a number for constants and as a phasor for sinusoids. */
  readonly form?: Hand["form"];
};

/** A mistake, with a way to make it in a random circuit; null where the dice give a circuit without a place for it. */
export type Way = {
  readonly code: MistakeCode;
  readonly make: (dice: Dice) => Case | null;
  /** Whether it leads to 0 in every circuit. */
  readonly isZero?: boolean;
};

const SOURCES = ["voltage", "current"] as const;

/** A circuit of constant sources. */
export function constantCircuit(dice: Dice, wishes: Partial<Wishes> & { readonly count?: number } = {}): Textbook {
  const { count = dice.pick([2, 2, 3]), ...others } = wishes;
  const sources = Array.from({ length: count }, () => dice.pick(SOURCES));
  return textbook(dice, { nodes: dice.pick([1, 2]), sources, ...others });
}

/** A circuit of sinusoidal sources with a coil, a capacitor or both. */
export function sinusoidalCircuit(
  dice: Dice,
  wishes: Partial<Wishes> & { readonly count?: number; readonly omegas?: readonly number[] } = {},
): Textbook {
  const { count = 2, omegas = [dice.pick([500, 800, 1000, 1500, 2000])], ...others } = wishes;
  const sources = Array.from({ length: count }, () => dice.pick(SOURCES));
  return textbook(dice, {
    nodes: dice.pick([1, 2]),
    sources,
    include: [dice.pick(["coil", "inductor", "condenser", "capacitor"] as const)],
    fillers: ["resistor", "resistor", "coil", "condenser"],
    scale: { kind: "sinusoid", omegas },
    ...others,
  });
}

/** The current through one of some resistors. */
export function askedCurrent(dice: Dice, among: readonly string[]): Asked | null {
  return among.length === 0 ? null : { quantity: "current", through: dice.pick(among), isBackward: dice.chance(0.5) };
}

export function askedVoltage(dice: Dice, { main }: Pick<Textbook, "main">): Asked {
  const [from = "a", to = "0"] = dice.shuffled([...main, "0"]);
  return { quantity: "voltage", from, to };
}

/** A current or a voltage of a circuit, with the line that it is asked on. Null where an addend of it is nothing. */
export function asking(
  dice: Dice,
  book: Textbook,
  lines: readonly Line[],
  asked: Asked | null = dice.chance(0.7) ? askedCurrent(dice, plainResistors(book)) : askedVoltage(dice, book),
  measure: "peak" | "rms" = "peak",
): Question | null {
  const { branches } = book;
  const ids = sourceIds(book);
  const line = dice.pick(lines);
  if (asked === null || (line === "group" && ids.length < 3)) return null;
  const [lone = ""] = dice.shuffled(ids);
  const pair = ids.filter((id) => id !== lone).slice(0, 2);
  const inGroups = [pair, ...ids.filter((id) => !pair.includes(id)).map((id) => [id])];
  const grouping = line === "group" ? inGroups : ids.map((id) => [id]);
  const acting = line === "group" ? pair : line === "addend" ? [lone] : null;
  const question: Question = { branches, asked, grouping, acting, measure };
  const isPort = line === "equivalent";
  const addends = addendsOf({ ...question, grouping: ids.map((id) => [id]) });
  if (!isPort && (addends === null || addends.some((value) => sizeOf(onlyOf(value)) < 1e-9))) return null;
  return question;
}

/** What the question's line gives with other branches in place of its own, or with another law at a node. */
export function answered(
  question: Question,
  branches: readonly Branch[] = question.branches,
  law?: NodeLaw,
): Value | null {
  return valueIn(branches, question.asked, actingOn(question), law);
}

/** The case where a question and a wrong value are there. */
export function caseOf(
  question: Question | null,
  wrong: Value | null,
  parts: Case["parts"],
  others: Partial<Case> = {},
): Case | null {
  return question === null || wrong === null ? null : { question, wrong, parts, ...others };
}

export const otherSources = (question: Question): string[] =>
  question.branches
    .filter(({ law }) => law.kind === "voltage-source" || law.kind === "current-source")
    .map(({ id }) => id)
    .filter((id) => !actingOn(question).includes(id));

export const isVoltageSource = (branches: readonly Branch[], id: string): boolean =>
  branchOf(branches, id).law.kind === "voltage-source";
