import { unreachable } from "../../shared/circuit";
import {
  type ChangeRefusal,
  type Drawers,
  type Role,
  type RoomAction,
  type ShownAnswers,
  type ShownLines,
  type TryAction,
  type Trying,
  tidyCard,
  USUAL_TRYING,
} from "../../shared/messages";
import { withLines } from "./lines";

/** Somebody who joined the room, whether they are here now or not. */
export type Member = {
  readonly id: string;
  readonly name: string;
  readonly role: Role;
  /** Whether the instructor chose them to draw; counts while `drawing` is "chosen". */
  readonly isChosen: boolean;
  /** Sent away for good. The entry stays, so that they can't come back and their changes keep a name. */
  readonly isRemoved: boolean;
  /** Whether replays call them by their name; otherwise they are "learner 3" there, in all that ever happened. */
  readonly isNameKept: boolean;
};

/** Who belongs to a room and what they may do: plain data, changed by {@link changed} alone. */
export type RoomAccess = {
  /** In the order in which they first joined. */
  readonly members: readonly Member[];
  readonly drawing: Drawers;
  readonly answers: ShownAnswers;
  readonly lines: ShownLines;
  readonly trying: Trying;
  readonly isLocked: boolean;
  readonly isEnded: boolean;
};

/** What can happen to a room's access. The history keeps these, and a room that is loaded goes through them again. */
export type AccessChange =
  /** Somebody joined, or joined again with another name or role. */
  | { readonly do: "admit"; readonly participant: string; readonly name: string; readonly role: Role }
  /** Whether replays may call them by their name. */
  | { readonly do: "keepName"; readonly participant: string; readonly keep: boolean }
  /** `reveals`: cards whose answers those lines tell. */
  | (Extract<RoomAction, { readonly do: "showLines" }> & { readonly reveals: readonly string[] })
  | Exclude<RoomAction, { readonly do: "comeToMe" | "showLines" | "keepName" | "beginAgain" | TryAction["do"] }>;

/** A room to which nothing has happened: open, every answer shown and no worked line, everyone may draw, tries judged as usual. */
export const OPEN_ACCESS: RoomAccess = {
  members: [],
  drawing: "everyone",
  answers: { shown: true, except: [] },
  lines: { shown: false, except: [] },
  trying: USUAL_TRYING,
  isLocked: false,
  isEnded: false,
};

/** The access after a change. A change that speaks of somebody who isn't there leaves it as it is. */
export function changed(access: RoomAccess, change: AccessChange): RoomAccess {
  switch (change.do) {
    case "admit":
      return admitted(access, change);
    case "setDrawing":
      return { ...access, drawing: change.who };
    case "setMayDraw":
      return withMember(access, change.participant, { isChosen: change.may });
    case "setAnswers":
      return { ...access, answers: { shown: change.shown, except: [] } };
    case "setShown":
      return { ...access, answers: withCard(access.answers, tidyCard(change.card), change.shown) };
    case "showLines":
      return {
        ...access,
        lines: withLines(access.lines, change),
        answers: change.reveals.reduce((answers, card) => withCard(answers, tidyCard(card), true), access.answers),
      };
    case "showAllLines":
      return {
        ...access,
        lines: { shown: change.shown, except: [] },
        answers: change.shown ? { shown: true, except: [] } : access.answers,
      };
    case "setTrying":
      return { ...access, trying: { ...access.trying, ...change.trying } };
    case "renameParticipant":
      return withMember(access, change.participant, { name: change.name });
    case "removeParticipant":
      return withMember(access, change.participant, { isRemoved: true });
    case "keepName":
      return withMember(access, change.participant, { isNameKept: change.keep });
    case "lock":
      return { ...access, isLocked: change.locked };
    case "end":
      return { ...access, isEnded: true };
    default:
      return unreachable(change);
  }
}

function admitted(access: RoomAccess, { participant, name, role }: AccessChange & { do: "admit" }): RoomAccess {
  if (findMember(access, participant)) return withMember(access, participant, { name, role });
  const member = { id: participant, name, role, isChosen: false, isRemoved: false, isNameKept: true };
  return { ...access, members: [...access.members, member] };
}

function withMember(access: RoomAccess, id: string, fields: Partial<Member>): RoomAccess {
  return { ...access, members: access.members.map((member) => (member.id === id ? { ...member, ...fields } : member)) };
}

function withCard(answers: ShownAnswers, card: string, shown: boolean): ShownAnswers {
  const others = answers.except.filter((each) => each !== card);
  return { ...answers, except: shown === answers.shown ? others : [...others, card] };
}

export function findMember(access: RoomAccess, id: string): Member | null {
  return access.members.find((member) => member.id === id) ?? null;
}

/** Whether `drawing` lets a member draw, whatever lock and end say. */
export function isDrawer({ drawing }: RoomAccess, { role, isChosen }: Member): boolean {
  switch (role) {
    case "instructor":
      return true;
    case "observer":
      return false;
    case "learner":
      return drawing === "everyone" || (drawing === "chosen" && isChosen);
    default:
      return unreachable(role);
  }
}

/** Why a try of this participant is refused; null where it is not. Neither a lock nor who may draw keeps anybody from trying. */
export function tryRefusal(access: RoomAccess, participant: string): "isObserver" | "ended" | null {
  const member = findMember(access, participant);
  if (!member || member.isRemoved || member.role === "observer") return "isObserver";
  return access.isEnded ? "ended" : null;
}

/** Why a change that this participant makes to the board is refused; null where it is not. */
export function drawingRefusal(access: RoomAccess, participant: string): ChangeRefusal | null {
  const member = findMember(access, participant);
  if (!member || member.isRemoved) return "notAllowed";
  if (access.isEnded) return "ended";
  if (access.isLocked && member.role !== "instructor") return "locked";
  return isDrawer(access, member) ? null : "notAllowed";
}
