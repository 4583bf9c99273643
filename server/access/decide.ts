import { unreachable } from "../../shared/circuit";
import {
  type RequestRefusal,
  type RoomAction,
  type RoomView,
  type TryAction,
  type Trying,
  tidyCard,
} from "../../shared/messages";
import { decideLines } from "./decideLines";
import { freeName } from "./names";
import { type AccessChange, findMember, type RoomAccess } from "./roomAccess";
import { noWorkings, type WholeWorkings } from "./wholeWorkings";

/** Cards that can be shown or hidden one by one; more than any board has room for. */
const CARD_LIMIT = 200;

export type Decision =
  | { readonly outcome: "refused"; readonly why: RequestRefusal }
  /** All is as it was asked to be already. */
  | { readonly outcome: "nothing" }
  | { readonly outcome: "change"; readonly change: AccessChange }
  | { readonly outcome: "call"; readonly view: RoomView };

/**
 * What becomes of a participant's request. Names are tidied and made unique; nothing else of it is altered. `workings`
 * are the newest: what the lines that are asked for would tell.
 */
export function decide(
  access: RoomAccess,
  participant: string,
  action: Exclude<RoomAction, TryAction>,
  workings: WholeWorkings = noWorkings(-1),
): Decision {
  const asker = findMember(access, participant);
  if (!asker || asker.isRemoved) return refused("notAllowed");
  // A try takes this in before anything is decided on; here it is asked of a room that nobody owns.
  if (action.do === "beginAgain") return refused("notOwner");
  const isOwnName =
    action.do === "keepName" || (action.do === "renameParticipant" && action.participant === participant);
  if (asker.role !== "instructor" && !isOwnName) return refused("notAllowed");
  // Their name stays theirs, also when nothing else can be changed any more.
  if (access.isEnded && action.do !== "keepName") return refused("ended");
  switch (action.do) {
    case "setDrawing":
      return access.drawing === action.who ? NOTHING : change(action);
    case "setAnswers":
      return change(action);
    case "setShown": {
      const isFull =
        access.answers.except.length >= CARD_LIMIT && !access.answers.except.includes(tidyCard(action.card));
      return isFull && access.answers.shown !== action.shown ? refused("tooMany") : change(action);
    }
    case "showLines":
      return decideLines(access, action, workings);
    case "showAllLines":
      return change(action);
    case "setTrying":
      return isAsItIs(access.trying, action.trying) ? NOTHING : change(action);
    case "lock":
      return access.isLocked === action.locked ? NOTHING : change(action);
    case "end":
      return change(action);
    case "keepName":
      return asker.isNameKept === action.keep ? NOTHING : change({ ...action, participant });
    case "comeToMe":
      return { outcome: "call", view: action.view };
    case "setMayDraw":
    case "removeParticipant":
    case "renameParticipant":
      return decideOnMember(access, action);
    default:
      return unreachable(action);
  }
}

type OnMember = Extract<RoomAction, { readonly participant: string }>;

function decideOnMember(access: RoomAccess, action: OnMember): Decision {
  const member = findMember(access, action.participant);
  if (!member || member.isRemoved) return refused("unknownParticipant");
  switch (action.do) {
    case "setMayDraw":
      if (member.role === "instructor") return refused("isInstructor");
      if (member.role === "observer") return refused("isObserver");
      return member.isChosen === action.may ? NOTHING : change(action);
    case "removeParticipant":
      return member.role === "instructor" ? refused("isInstructor") : change(action);
    case "renameParticipant": {
      const name = freeName(action.name, access.members, member.id);
      return name === member.name ? NOTHING : change({ ...action, name });
    }
    default:
      return unreachable(action);
  }
}

function isAsItIs(now: Trying, part: Partial<Trying>): boolean {
  const asked = { ...now, ...part };
  return (Object.keys(asked) as (keyof Trying)[]).every((key) => asked[key] === now[key]);
}

const NOTHING: Decision = { outcome: "nothing" };
const change = (made: AccessChange): Decision => ({ outcome: "change", change: made });
const refused = (why: RequestRefusal): Decision => ({ outcome: "refused", why });
