import { type LineTry, type MeantTry, type TryHelp, tidyCard, type ZeroingTry } from "../../shared/messages";
import type { MadeStep, MadeTry, Outdated, ReplayHelp } from "../../shared/replay";
import { isLineKnown } from "../steps";
import type { CardTries, SumCard } from "../sum";
import { toldThen } from "./toldThen";

/** Who looks, by their number, null for who came by a link; and what the others are called. */
export type Names = { readonly you: number | null; readonly nameOf: (participant: number) => string };

/** The newest try at a card, as it stood then. Nothing can be done about it. */
export function triesThen(
  tries: readonly MadeTry[],
  wanted: string | null,
  card: SumCard,
  names: Names,
  outdated: Outdated | null,
): CardTries | null {
  const made = tries.find((each) => each.wanted === wanted && tidyCard(each.card) === tidyCard(card.key));
  if (!made) return null;
  const isMade = (each: MeantTry) => isSame(each, made) && each.wanted === made.wanted;
  const judgement = outdated?.retold.find(isMade)?.judgement ?? made.judgement;
  if (toldThen(judgement) === null) return null;
  const { text, count, participant } = made;
  const isOwn = participant === names.you;
  const last = {
    text,
    judgement,
    count,
    isOutdated: outdated?.tries.some(isMade) ?? false,
    help: helpThen(made.help, names),
    who: isOwn ? "You" : names.nameOf(participant),
    isOwn,
  };
  return { last, hand: null, help: null };
}

/** Zeroings and lines as they stood then, as a room's page knows them; participants by their numbers. */
export function stepsThen(
  steps: readonly MadeStep[],
  names: Names,
  outdated: Outdated | null,
): { readonly zeroings: readonly ZeroingTry[]; readonly lines: readonly LineTry[] } {
  const common = (made: MadeStep) => ({
    card: tidyCard(made.card),
    count: made.count,
    participant: String(made.participant),
    name: names.nameOf(made.participant),
    time: made.time,
    help: helpThen(made.help, names),
    isOutdated: outdated?.steps.some((each) => isSame(each, made) && each.step === made.step) ?? false,
  });
  return {
    zeroings: steps.flatMap((made) => {
      if (made.step !== "zeroing") return [];
      return { ...common(made), decisions: made.decisions, outcome: made.outcome };
    }),
    lines: steps.flatMap((made) => {
      if (made.step !== "line" || !isLineKnown(made.told)) return [];
      return { ...common(made), text: made.text, told: made.told };
    }),
  };
}

/** The help that had been given by then; null for none. */
function helpThen(help: ReplayHelp | null, { nameOf }: Names): TryHelp | null {
  if (help === null) return null;
  const { rungs, reason } = help;
  return {
    rungs,
    hasMore: false,
    question: null,
    reason: reason ? { state: "given", name: nameOf(reason.participant), text: reason.text } : { state: "notAsked" },
  };
}

type Counted = { readonly card: string; readonly count: number };

const isSame = (a: Counted, b: Counted) => tidyCard(a.card) === tidyCard(b.card) && a.count === b.count;
