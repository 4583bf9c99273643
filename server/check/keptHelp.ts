import { z } from "zod";
import { type Explanation, explanationWords } from "../../shared/check/mistakes";
import { unreachable } from "../../shared/circuit";
import type { MeantTry, QuestionChoice } from "../../shared/messages";
import { RUNGS, type WordedQuestion, type WordedRung } from "./rungs";

/** What a room keeps of the help with a try. It names mistakes, so it is sent to nobody. */
export type KeptHelp = {
  /** What may be behind the value, the least surprising first; none where the one who tried it knows better. */
  readonly thinkable: readonly Explanation[];
  /** Whether the question between the first two is put, and not answered. */
  readonly isAsked: boolean;
} & HelpGiven;

/** How far the help with a try or a step has gone. */
export type HelpGiven = {
  /** How many rungs were given. */
  readonly given: number;
  readonly reason: { readonly participant: string; readonly name: string; readonly text: string } | null;
};

type Event = MeantTry & { readonly participant: string; readonly name: string };

export type RungGiven = Event & WordedRung & { readonly did: "giveRung"; readonly explanation: Explanation };
export type QuestionPut = Event &
  WordedQuestion & { readonly did: "putQuestion"; readonly between: readonly [Explanation, Explanation] };
/** `explanation` is the one that was chosen; null for neither. */
export type QuestionAnswered = Event & {
  readonly did: "answerQuestion";
  readonly choice: QuestionChoice;
  readonly explanation: Explanation | null;
};
export type ReasonGiven = Event & { readonly did: "giveReason"; readonly text: string };

/** What happens about a try, as the history keeps it. */
export type HelpEvent = RungGiven | QuestionPut | QuestionAnswered | ReasonGiven;

/** Explanations that are kept at most: nobody answers more questions than these make. */
const MOST = 8;

/** The help with a wrong value that some mistakes explain; null where none does. */
export function helpWith(explanations: readonly Explanation[]): KeptHelp | null {
  const byDeed = new Map<string, Explanation>();
  for (const each of explanations) {
    const { deed } = explanationWords(each);
    // Two that nobody could tell apart by their words are one.
    if (!byDeed.has(deed)) byDeed.set(deed, each);
  }
  const thinkable = [...byDeed.values()].slice(0, MOST);
  return thinkable.length === 0 ? null : { thinkable, isAsked: false, given: 0, reason: null };
}

/**
 * The help with a new try at a card. Where the same mistake is made once more, the rungs that were given for it stand; at
 * the right value they stay to be read, and a reason that is asked for can still be given.
 */
export function helpAfter(before: KeptHelp | null, isRight: boolean, now: KeptHelp | null): KeptHelp | null {
  const settled = before !== null && before.given > 0 ? before : null;
  if (isRight) return settled && { ...settled, isAsked: false };
  const isSame = (each: Explanation) => JSON.stringify(each) === JSON.stringify(settled?.thinkable[0]);
  return settled && now?.thinkable.some(isSame) ? settled : now;
}

/** The help after an event. */
export function helped(help: KeptHelp, event: HelpEvent): KeptHelp {
  switch (event.did) {
    case "giveRung":
      return { ...help, thinkable: [event.explanation], isAsked: false, given: help.given + 1 };
    case "putQuestion":
      return { ...help, isAsked: true };
    case "answerQuestion": {
      const thinkable = event.explanation === null ? help.thinkable.slice(2) : [event.explanation];
      return { ...help, thinkable, isAsked: false };
    }
    case "giveReason": {
      const { participant, name, text } = event;
      return { ...help, reason: { participant, name, text } };
    }
    default:
      return unreachable(event);
  }
}

// What the history gives back. Explanations are written by us alone, and read no further than their words need.

const explanation = z.custom<Explanation>((value) => {
  const shape = z.looseObject({ mistakes: z.array(z.looseObject({ code: z.string() })).min(1) });
  if (!shape.safeParse(value).success) return false;
  try {
    explanationWords(value as Explanation);
    return true;
  } catch {
    return false;
  }
});

export const personFields = { participant: z.string(), name: z.string() };
const names = z.array(z.string());
export const rungFields = { rung: z.enum(RUNGS), text: z.string(), parts: names, nodes: names };
export const givenFields = {
  given: z.int().min(0),
  reason: z.strictObject({ ...personFields, text: z.string() }).nullable(),
};
const event = { wanted: z.string(), card: z.string(), count: z.int().min(1), ...personFields };

export const keptHelpSchema: z.ZodType<KeptHelp> = z.strictObject({
  thinkable: z.array(explanation),
  isAsked: z.boolean(),
  ...givenFields,
});

export const helpEventSchema: z.ZodType<HelpEvent> = z.discriminatedUnion("did", [
  z.strictObject({ did: z.literal("giveRung"), ...event, ...rungFields, explanation }),
  z.strictObject({
    did: z.literal("putQuestion"),
    ...event,
    text: z.string(),
    deeds: z.tuple([z.string(), z.string()]),
    between: z.tuple([explanation, explanation]),
  }),
  z.strictObject({
    did: z.literal("answerQuestion"),
    ...event,
    choice: z.union([z.literal(0), z.literal(1), z.literal("neither")]),
    explanation: explanation.nullable(),
  }),
  z.strictObject({ did: z.literal("giveReason"), ...event, text: z.string() }),
]);
