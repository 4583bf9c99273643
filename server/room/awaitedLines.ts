import { isSameCard, type RoomAction } from "../../shared/messages";

type ShowLines = Extract<RoomAction, { readonly do: "showLines" }>;

/** A wish to show lines of a board whose lines were still being worked out. */
export type AwaitedLines = {
  readonly participant: string;
  readonly action: ShowLines;
  /** Number of the board's change. */
  readonly revision: number;
};

/** Most wishes that are kept: more than there are cards on a board that anybody works. */
const LIMIT = 100;

/**
 * The wishes that are to be decided on again after something was asked for. What the lines of a board would tell is not
 * known until they are worked out: a wish that comes before counts at once, as far as is known, and again once it is. To
 * hide answers, or to say how many lines of the same card are shown, is newer than the wish and goes before it.
 */
export function withAwaited(
  awaited: readonly AwaitedLines[],
  participant: string,
  action: RoomAction,
  { revision, workedOut }: { readonly revision: number; readonly workedOut: number },
): readonly AwaitedLines[] {
  switch (action.do) {
    case "showLines": {
      const others = awaited.filter((each) => !isSameCard(each.action, action));
      const isEarly = action.lines !== 0 && workedOut < revision && others.length < LIMIT;
      return isEarly ? [...others, { participant, action, revision }] : others;
    }
    case "setAnswers":
    case "showAllLines":
      return [];
    case "setShown":
      return action.shown ? awaited : [];
    default:
      return awaited;
  }
}
