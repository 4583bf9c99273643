import type { JoinRoom, Role } from "../../shared/messages";
import { freeName } from "./names";
import { type AccessChange, findMember, type RoomAccess } from "./roomAccess";

export type JoinRefusal = "removed" | "ended" | "locked" | "roomFull";

export type Admission =
  | { readonly outcome: "refused"; readonly why: JoinRefusal }
  | { readonly outcome: "admit"; readonly change: AccessChange & { readonly do: "admit" } };

/** Most members that a room takes, gone and removed ones included. */
export const MEMBER_LIMIT = 1000;

/**
 * What becomes of somebody who wants to join. `holdsKey`: they brought the instructor's key, and it is the right one.
 * A member may come back at any time, also to a room that is locked or has ended; a removed one never, whatever they bring.
 */
export function decideJoin(
  access: RoomAccess,
  participant: string,
  asked: Pick<JoinRoom, "name" | "as">,
  holdsKey: boolean,
): Admission {
  const member = findMember(access, participant);
  if (member?.isRemoved) return { outcome: "refused", why: "removed" };
  if (!member && access.isEnded) return { outcome: "refused", why: "ended" };
  if (!member && access.isLocked && !holdsKey) return { outcome: "refused", why: "locked" };
  if (!member && access.members.length >= MEMBER_LIMIT) return { outcome: "refused", why: "roomFull" };
  // In a room that has ended nothing changes any more.
  const name = member && access.isEnded ? member.name : freeName(asked.name, access.members, participant);
  const role = holdsKey || member?.role === "instructor" ? "instructor" : (asked.as ?? member?.role ?? "learner");
  return { outcome: "admit", change: { do: "admit", participant, name, role: keptRole(access, member?.role, role) } };
}

function keptRole({ isEnded }: RoomAccess, before: Role | undefined, asked: Role): Role {
  return isEnded && before ? before : asked;
}
