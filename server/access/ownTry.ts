import type { RoomAction, TryAction } from "../../shared/messages";
import { findMember, type Member, OPEN_ACCESS, type RoomAccess } from "./roomAccess";

/**
 * The access of a try to which nothing has happened: every answer is hidden from whoever tries it, whatever the room
 * itself shows.
 */
export const TRY_ACCESS: RoomAccess = { ...OPEN_ACCESS, answers: { shown: false, except: [] } };

/**
 * Who belongs to a try and what they may do there: its owner and the instructors of the room whose problem is tried, as
 * that room has them now. What is shown is the try's own affair; all else follows the room, but that its lock and its
 * choice of who draws are about its own board. `own` is what the try's history says.
 */
export function tryAccess(own: RoomAccess, room: RoomAccess, owner: string): RoomAccess {
  const { answers, lines } = own;
  const members = room.members.filter((member) => member.id === owner || isInstructor(member));
  return { ...room, members, answers, lines, drawing: "everyone", isLocked: false };
}

const isInstructor = ({ role, isRemoved }: Member) => role === "instructor" && !isRemoved;

/** Whether an action is about the class as a whole, and so not to be done in somebody's own try. */
export function isAboutClass(action: Exclude<RoomAction, TryAction>): boolean {
  switch (action.do) {
    case "setAnswers":
    case "setShown":
    case "showLines":
    case "showAllLines":
    case "comeToMe":
    case "beginAgain":
      return false;
    // Also whatever is added to the settings of a room: a try takes those from its room.
    default:
      return true;
  }
}

export type OpenRefusal = "notMember" | "removed" | "notLearner" | "ended";

/**
 * Why a participant can't open a try of their own; null where they can. One that is there can be looked at by its owner
 * also when they have become an observer, and when the room has ended.
 */
export function openRefusal(room: RoomAccess, participant: string, isThere: boolean): OpenRefusal | null {
  const member = findMember(room, participant);
  if (!member) return "notMember";
  if (member.isRemoved) return "removed";
  if (isThere) return null;
  if (member.role !== "learner") return "notLearner";
  return room.isEnded ? "ended" : null;
}

export type LookRefusal = "notMember" | "removed" | "notYours";

/**
 * Why a participant can't see the try of an owner; null where they can. `owner` is null where there is no such try, which
 * only instructors are to know.
 */
export function lookRefusal(room: RoomAccess, participant: string, owner: string | null): LookRefusal | null {
  const member = findMember(room, participant);
  if (!member) return "notMember";
  if (member.isRemoved) return "removed";
  return participant === owner || isInstructor(member) ? null : "notYours";
}
