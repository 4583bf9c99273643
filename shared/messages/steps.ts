import type { EquationDiagnosis, EquationJudgement } from "../check/equations/equationJudgement";
import type { ZeroingDecision } from "../check/judgeZeroing";
import { tidyCard } from "./roomState";
import type { TryHelp } from "./tryHelp";

/** What is checked on the way to a card's value: what its sources become, or a line that somebody writes of its circuit. */
export type StepKind = "zeroing" | "line";

/** What a source can become, in the order in which it is offered. */
export const DECISION_CHOICES = ["kept", "short", "open"] as const satisfies readonly ZeroingDecision[];

/** What each source becomes in a card's circuit, by its name. A source that is not named is kept. */
export type Decisions = Readonly<Record<string, ZeroingDecision>>;

/** A step that somebody means: the newest zeroing of a card by how many there were, a line by its number at the card. */
export type MeantStep = { readonly step: StepKind; readonly card: string; readonly count: number };

export function isOfCard(each: { readonly card: string }, card: string): boolean {
  return tidyCard(each.card) === tidyCard(card);
}

/** Whether a step is the one that is meant. */
export function isMeantStep(each: MeantStep, meant: MeantStep): boolean {
  return each.step === meant.step && each.count === meant.count && isOfCard(each, meant.card);
}

/** Lines that are kept of one card, and of a room. */
const LINES_OF_CARD = 20;
const LINES = 200;
/** Cards of which the newest zeroing is kept. */
const ZEROINGS = 100;

/** The steps with a new one: a zeroing in the place of its card's last, a line behind the others, or in its own place. */
export function withStep<T extends MeantStep>(steps: readonly T[], made: T): readonly T[] {
  const isReplaced = (each: T) =>
    made.step === "zeroing" ? each.step === "zeroing" && isOfCard(each, made.card) : isMeantStep(each, made);
  const place = steps.findIndex(isReplaced);
  if (made.step === "line" && place >= 0) return steps.map((each, i) => (i === place ? made : each));
  const all = [...steps.filter((each) => !isReplaced(each)), made];
  const own = all.filter((each) => each.step === "line" && isOfCard(each, made.card));
  const gone = new Set<T>([
    ...own.slice(0, -LINES_OF_CARD),
    ...all.filter(({ step }) => step === "line").slice(0, -LINES),
    ...all.filter(({ step }) => step === "zeroing").slice(0, -ZEROINGS),
  ]);
  return all.filter((each) => !gone.has(each));
}

export type TryZeroing = { readonly do: "tryZeroing"; readonly card: string; readonly decisions: Decisions };
export type TryLine = { readonly do: "tryLine"; readonly card: string; readonly text: string };

export type StepHelpAction =
  /** The next rung. `given` are those that whoever asks has seen. */
  | (MeantStep & { readonly do: "askStepHelp"; readonly given: number })
  /** In one line, why it was so. */
  | (MeantStep & { readonly do: "giveStepReason"; readonly text: string });

export type StepAction = TryZeroing | TryLine | StepHelpAction;

export const STEP_ACTIONS = [
  "tryZeroing",
  "tryLine",
  "askStepHelp",
  "giveStepReason",
] as const satisfies readonly StepAction["do"][];

/** Whether an action is about a step. */
export function isStepAction<Action extends { readonly do: string }>(
  action: Action,
): action is Extract<Action, { readonly do: StepAction["do"] }> {
  return (STEP_ACTIONS as readonly string[]).includes(action.do);
}

/** Sources that decisions are made of at most: more than any board has room for. */
export const DECISION_LIMIT = 200;

type Made = {
  readonly card: string;
  /** Id of whoever made it, and their name then. */
  readonly participant: string;
  readonly name: string;
  /** Milliseconds since 1970, by the server's clock. */
  readonly time: number;
  /** The help that there is with it; null where there is none, and where none is needed. */
  readonly help: TryHelp | null;
  /** Whether the circuit is another by now than the one it was judged in. */
  readonly isOutdated: boolean;
};

/** The newest zeroing of a card that was checked. Which source is at fault waits until it is asked for. */
export type ZeroingTry = Made & {
  readonly decisions: Decisions;
  readonly outcome: "right" | "wrong";
  /** How many the room has had checked for this card, this one counted. */
  readonly count: number;
};

type FalseEquation = Extract<EquationJudgement, { readonly outcome: "false" }>;

/** What is told of a line. */
export type ToldLine =
  | Extract<EquationJudgement, { readonly outcome: "true" | "trueButEmpty" }>
  /** With what is known by comparing its sides; null where one sign, term or prefix is at fault, which waits until it is asked for. */
  | (Omit<FalseEquation, "diagnosis"> & { readonly diagnosis: EquationDiagnosis | null })
  /** To be judged when values are handed in. */
  | { readonly outcome: "entered" };

/** A line of somebody's own. `count` is its number at its card. */
export type LineTry = Made & { readonly text: string; readonly told: ToldLine; readonly count: number };

/** What the server says of steps to everybody: the newest zeroing of each card, and the newest lines of each, oldest first. */
export type StepsMessage = {
  readonly about: "steps";
  readonly zeroings: readonly ZeroingTry[];
  readonly lines: readonly LineTry[];
};

/** A line that can't be read, which nobody else is told of: `at` is where, in characters. */
export type UnreadLine = Extract<EquationJudgement, { readonly outcome: "unread" }>;
