import { isShown, linesOf } from "../../shared/messages";
import { findMember, linesOfBoth, type RoomAccess, type Showing } from "../access";

/**
 * Who looks at a replay. `participant` is null for who came by a link and is no member of the room. Who may go on from a
 * moment in a new room is who is there to do something, not who only looks.
 */
export type Viewer =
  | { readonly as: "instructor" | "member"; readonly participant: string; readonly mayGoOn: boolean }
  | { readonly as: "link"; readonly participant: null; readonly mayGoOn: false };

/** A member of the room as one who looks at its replay; null for strangers and for those who were removed. */
export function viewerOf(access: RoomAccess, participant: string): Viewer | null {
  const member = findMember(access, participant);
  if (!member || member.isRemoved) return null;
  const as = member.role === "instructor" ? "instructor" : "member";
  return { as, participant, mayGoOn: member.role !== "observer" };
}

/**
 * What those who don't instruct could see at a moment. Before the first of them had come nobody but instructors did, who
 * may have been preparing the room: of that moment they see what is shown now as well.
 */
export function shownAt(then: RoomAccess, now: RoomAccess, hadAudience: boolean): Showing {
  if (hadAudience) {
    return {
      isShown: (card) => isShown(then.answers, card),
      linesOf: (wanted, card) => linesOf(then.lines, wanted, card),
    };
  }
  return {
    isShown: (card) => isShown(then.answers, card) && isShown(now.answers, card),
    linesOf: (wanted, card) => linesOfBoth(then.lines, now.lines, wanted, card),
  };
}
