import { equationText } from "../../shared/check/equations/equationText";
import type { LineTry, ToldLine } from "../../shared/messages";
import { unreachable } from "../../shared/quantity";
import type { EntryMark } from "../sum/Mark";

/** What is said of a line, with its mark. */
export function lineSaid({ told, isOutdated }: Pick<LineTry, "told" | "isOutdated">): {
  readonly mark: EntryMark;
  readonly text: string;
} {
  if (isOutdated) return { mark: "outdated", text: "Written before the circuit was changed." };
  return { mark: markOf(told), text: textOf(told) };
}

function markOf(told: ToldLine): EntryMark {
  switch (told.outcome) {
    case "true":
      return "right";
    case "trueButEmpty":
      return "empty";
    case "false":
      return "wrong";
    case "entered":
      return "entered";
    default:
      return unreachable(told);
  }
}

function textOf(told: ToldLine): string {
  switch (told.outcome) {
    case "true":
    case "trueButEmpty":
    case "false":
      return equationText(told);
    case "entered":
      return "Entered, not handed in yet.";
    default:
      return unreachable(told);
  }
}
