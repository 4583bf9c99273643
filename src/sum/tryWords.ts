import { judgementText } from "../../shared/check/judgementText";
import type { ToldJudgement, TryReply } from "../../shared/messages";
import { unreachable } from "../../shared/quantity";

/** What is said of a try that was judged. */
export function toldText(judgement: ToldJudgement): string {
  switch (judgement.outcome) {
    case "right":
      return judgementText(judgement);
    case "wrong":
      // What a comparison would say is the mending of some mistakes, so it waits until it is asked for.
      return judgement.diagnosis === null
        ? "Not right yet."
        : judgementText({ outcome: "wrong", diagnosis: judgement.diagnosis });
    case "follows":
      return judgement.text;
    case "entered":
      return "Entered, not handed in yet.";
    default:
      return unreachable(judgement);
  }
}

/** Whether nothing came of a request for no other reason than that the room could not be reached. */
export function isOutOfReach(reply: TryReply): boolean {
  return reply.outcome === "refused" && reply.why === "unreachable";
}

/** Whether a reply tells what became of a value, as the room's newest try does. */
export function isTold(reply: TryReply): reply is ToldJudgement {
  return reply.outcome !== "unread" && reply.outcome !== "done" && reply.outcome !== "refused";
}
