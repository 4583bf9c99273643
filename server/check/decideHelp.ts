import { unreachable } from "../../shared/circuit";
import type { HelpAction, MeantTry, TryRefusal } from "../../shared/messages";
import { type HelpEvent, helped, type KeptHelp } from "./keptHelp";
import type { KeptTry } from "./keptTry";
import { RUNGS, wordedQuestion, wordedRung } from "./rungs";

/** What is to be done about a try: nothing where it has been done already. */
export type HelpDecision =
  | { readonly outcome: "refused"; readonly why: Extract<TryRefusal, "olderTry" | "outdated" | "noHelp"> }
  | { readonly outcome: "events"; readonly events: readonly HelpEvent[] };

type Asker = { readonly participant: string; readonly name: string };

/** What becomes of a request for help with the newest try of its card. */
export function decideHelp(
  kept: KeptTry | undefined,
  isOutdated: boolean,
  action: HelpAction,
  asker: Asker,
): HelpDecision {
  if (kept === undefined || kept.count !== action.count) return refused("olderTry");
  const { help } = kept;
  if (help === null) return refused("noHelp");
  const event = { wanted: kept.wanted, card: kept.card, count: kept.count, ...asker };
  switch (action.do) {
    case "askHelp":
      if (isOutdated) return refused("outdated");
      if (kept.judgement.outcome !== "wrong" || help.thinkable.length === 0) return refused("noHelp");
      if (help.isAsked || help.given > action.given) return events();
      return help.given === RUNGS.length ? refused("noHelp") : events(nextHelp(help, event));
    case "answerQuestion": {
      if (isOutdated) return refused("outdated");
      if (!help.isAsked) return events();
      const { choice } = action;
      const explanation = choice === "neither" ? null : (help.thinkable[choice] ?? null);
      const answered: HelpEvent = { did: "answerQuestion", ...event, choice, explanation };
      const after = helped(help, answered);
      return after.thinkable.length === 0 ? events(answered) : events(answered, nextHelp(after, event));
    }
    case "giveReason":
      if (help.given < RUNGS.length) return refused("noHelp");
      return help.reason === null ? events({ did: "giveReason", ...event, text: action.text }) : events();
    default:
      return unreachable(action);
  }
}

/** The question where two ways lead to the value, else the next rung. */
function nextHelp({ thinkable, given }: KeptHelp, event: MeantTry & Asker): HelpEvent {
  const [first, second] = thinkable;
  const rung = RUNGS[given];
  if (first === undefined || rung === undefined) throw new Error("nextHelp: there is no more help");
  if (second !== undefined) {
    return { did: "putQuestion", ...event, ...wordedQuestion(first, second), between: [first, second] };
  }
  return { did: "giveRung", ...event, ...wordedRung(first, rung), explanation: first };
}

const events = (...all: readonly HelpEvent[]): HelpDecision => ({ outcome: "events", events: all });
const refused = (why: (HelpDecision & { outcome: "refused" })["why"]): HelpDecision => ({ outcome: "refused", why });
