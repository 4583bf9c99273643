import { followsText } from "../../shared/check/mistakes";
import { type PartId, unreachable } from "../../shared/circuit";
import {
  type HelpReason,
  isSameCard,
  type Rung,
  type ToldJudgement,
  type Try,
  type TryHelp,
  type TryPlace,
} from "../../shared/messages";
import type { HelpGiven, KeptHelp } from "./keptHelp";
import type { KeptTry } from "./keptTry";
import { RUNGS, wordedQuestion, wordedRung } from "./rungs";

/** Who is told: those who instruct are sent reasons, too. */
export type Listener = "instructor" | "other";

/** What is known of a try beside itself. */
export type Surroundings = {
  readonly isOutdated: boolean;
  /** When the newest value was tried at another card of the same quantity. */
  readonly timeAt: (card: string) => number | undefined;
};

/** A kept try as it may be sent: no mistake but in the words that were asked for, and no answer. */
export function toldTry(kept: KeptTry, { isOutdated, timeAt }: Surroundings, to: Listener): Try {
  const { answer: _, help, judgement, ...rest } = kept;
  const canAsk = judgement.outcome === "wrong" && !isOutdated;
  return { ...rest, judgement: toldJudgement(kept, timeAt), help: help && toldHelp(help, canAsk, to), isOutdated };
}

/** When the newest value was tried at each other card of the quantity that was tried. */
export function timesOf(tries: readonly KeptTry[], made: TryPlace): Surroundings["timeAt"] {
  return (card) => tries.find((each) => isSameCard(each, { ...made, card }))?.time;
}

/**
 * What is told of the value itself: where a mistake explains it, a comparison would be the fix of some. Without `timeAt` it is
 * told as it was at its own time.
 */
export function toldJudgement(
  { judgement, help }: Pick<KeptTry, "judgement" | "help">,
  timeAt: Surroundings["timeAt"] | null = null,
): ToldJudgement {
  const isExplained = help !== null && help.thinkable.length > 0;
  switch (judgement.outcome) {
    case "wrong":
      return isExplained ? { outcome: "wrong", diagnosis: null } : judgement;
    case "follows": {
      const { from } = judgement;
      const isOlder = timeAt !== null && from.some(({ card, time }) => timeAt(card) !== time);
      const wrong = from.map(({ card }) => card.split("+") as PartId[]);
      return { outcome: "follows", text: isOlder ? OLDER : followsText(wrong) };
    }
    case "right":
    case "entered":
      return judgement;
    default:
      return unreachable(judgement);
  }
}

const OLDER = "This followed from the values before it. Other values have been tried there since: add up again.";

function toldHelp(help: KeptHelp, canAsk: boolean, to: Listener): TryHelp | null {
  const [first, second] = help.thinkable;
  if (first === undefined) return null;
  return {
    rungs: givenRungs(help),
    hasMore: canAsk && !help.isAsked && help.given < RUNGS.length,
    question: canAsk && help.isAsked && second !== undefined ? wordedQuestion(first, second) : null,
    reason: toldReason(help, to),
  };
}

/** The rungs that were given of the help with a value. */
export function givenRungs({ thinkable, given }: KeptHelp): readonly Rung[] {
  const [first] = thinkable;
  return first === undefined ? [] : RUNGS.slice(0, given).map((rung) => toldRung(wordedRung(first, rung)));
}

/** A rung as it may be sent, without which one it is. */
export function toldRung({ text, parts, nodes }: Rung): Rung {
  return { text, parts, nodes };
}

/** What is told of the reason that is asked for behind the last rung. */
export function toldReason({ given, reason }: HelpGiven, to: Listener): HelpReason {
  if (reason === null) return { state: given === RUNGS.length ? "asked" : "notAsked" };
  return { state: "given", name: reason.name, text: to === "instructor" ? reason.text : null };
}
