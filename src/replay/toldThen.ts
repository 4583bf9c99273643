import type { ToldJudgement, ToldLine } from "../../shared/messages";
import { lineSaid } from "../steps";
import { toldText } from "../sum";

/** What was said of a try; null for a judgement that this version does not know, as a session of another version may have. */
export function toldThen(judgement: ToldJudgement): string | null {
  return knownText(() => toldText(judgement));
}

/** The same of a line. */
export function lineToldThen(told: ToldLine): string | null {
  return knownText(() => lineSaid({ told, isOutdated: false }).text);
}

function knownText(say: () => string): string | null {
  try {
    return say();
  } catch {
    // Texts end in a throw for what their type does not have.
    return null;
  }
}
