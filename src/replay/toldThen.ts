import type { ToldJudgement } from "../../shared/messages";
import { toldText } from "../sum";

/** What was said of a try; null for a judgement that this version does not know, as a session of another version may have. */
export function toldThen(judgement: ToldJudgement): string | null {
  try {
    return toldText(judgement);
  } catch {
    // Texts end in a throw for what their type does not have.
    return null;
  }
}
