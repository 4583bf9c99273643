import { isMeantStep, isMeantTry, type LineTry, type MeantTry, tidyCard, type ZeroingTry } from "../../shared/messages";
import type { MadeStep, MadeTry, Outdated, ReplayHelp } from "../../shared/replay";
import { type CardTries, NEITHER, type ShownHelp, type SumCard } from "../sum";
import { lineToldThen, toldThen } from "./toldThen";

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
  const isMade = (each: MeantTry) => isMeantTry(each, made);
  const judgement = outdated?.retold.find(isMade)?.judgement ?? made.judgement;
  if (toldThen(judgement) === null) return null;
  const { text, count, participant } = made;
  const isOwn = participant === names.you;
  const isOutdated = outdated?.tries.some(isMade) ?? false;
  const last = {
    text,
    judgement,
    count,
    isOutdated,
    help: helpThen(made.help, names, isOutdated),
    who: isOwn ? "You" : names.nameOf(participant),
    isOwn,
  };
  return { last, hand: null, isReached: true, help: null };
}

/** Zeroings and lines as they stood then, as a room's page knows them; participants by their numbers. */
export function stepsThen(
  steps: readonly MadeStep[],
  names: Names,
  outdated: Outdated | null,
): { readonly zeroings: readonly ZeroingTry[]; readonly lines: readonly LineTry[] } {
  const common = (made: MadeStep) => {
    const isOutdated = outdated?.steps.some((each) => isMeantStep(each, made)) ?? false;
    return {
      card: tidyCard(made.card),
      count: made.count,
      participant: String(made.participant),
      name: names.nameOf(made.participant),
      time: made.time,
      help: helpThen(made.help, names, isOutdated),
      isOutdated,
    };
  };
  return {
    zeroings: steps.flatMap((made) => {
      if (made.step !== "zeroing") return [];
      return { ...common(made), decisions: made.decisions, outcome: made.outcome };
    }),
    lines: steps.flatMap((made) => {
      if (made.step !== "line" || lineToldThen(made.told) === null) return [];
      return { ...common(made), text: made.text, told: made.told };
    }),
  };
}

/** The help that had been given by then; null for none. A question about what is out of date stands no more. */
function helpThen(help: ReplayHelp | null, { you, nameOf }: Names, isOutdated: boolean): ShownHelp | null {
  if (help === null) return null;
  const { rungs, questions, reason } = help;
  const standing = questions.find(({ answer }) => answer === null);
  return {
    rungs,
    hasMore: false,
    question: standing && !isOutdated ? { text: standing.text, deeds: standing.deeds } : null,
    answered: questions.flatMap(({ text, answer }) => {
      if (answer === null) return [];
      const { participant, said } = answer;
      return { text, who: participant === you ? "you" : nameOf(participant), choice: said && (said.deed ?? NEITHER) };
    }),
    reason: reason ? { state: "given", name: nameOf(reason.participant), text: reason.text } : { state: "notAsked" },
  };
}
