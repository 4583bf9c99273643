import { type Board, LOCAL, replaceBoard } from "../../shared/board";
import type { RequestRefusal, RoomAction, TryAction, TryProgress } from "../../shared/messages";
import type { Report } from "../../shared/solve";
import { type AccessChange, type Decision, drawingRefusal, findMember, isAboutClass } from "../access";
import { countFound, type KeptTry } from "../check";
import { ENTRY, type EntryKind, jsonBytes, NOBODY, type StoredRoom } from "../history";
import type { RateLimits } from "../rateLimit";
import type { People } from "./people";
import { ProgressNote } from "./progressNote";
import type { SharedDoc } from "./sharedDoc";

/** A room as the tries of its problem lean on it. */
export type TriedRoom = {
  readonly name: string;
  readonly people: People;
  /** How fast a participant may try values, and ask about them, in the room and in their own try together. */
  readonly rates: RateLimits;
  readonly helpRates: RateLimits;
  /** Its board, and the number of the last change of that. */
  readonly problem: () => { readonly board: Board; readonly revision: number };
  /** The tries that are in memory: each is called when the room's access changed, and again when that is stored. */
  readonly followers: Set<(change: AccessChange, isStored: boolean) => void>;
};

/** The room whose problem is tried in another, and the participant who tries it there. */
export type Tried = { readonly room: TriedRoom; readonly owner: string };

/** What a history says, in an entry of its own, of the board that a try was given. */
export type TryBeginning = { readonly room: string; readonly revision: number };

/** What a try needs of the room that it is. */
export type TryHost = {
  readonly people: People;
  readonly doc: SharedDoc;
  readonly revision: () => number;
  readonly change: (by: string, change: AccessChange) => void;
  readonly record: (kind: EntryKind, participant: string, bytes: Uint8Array) => void;
  /** Takes an update in as a participant's change of the board. */
  readonly commit: (participant: string, update: Uint8Array) => void;
  /** Tells everybody what a change that is stored makes of the room. */
  readonly tellOf: (change: AccessChange) => void;
  /** Ends the connections of somebody who does not belong here any more. */
  readonly sendAway: (participant: string) => void;
  /** Has all judged that waits to be handed in. */
  readonly judgeEntered: (by: string) => void;
  readonly noteProgress: (progress: TryProgress) => void;
  readonly now: () => number;
};

/** What a room does besides where it is somebody's own try of another room's problem. */
export class OwnTry {
  readonly #tried: Tried;
  readonly #host: TryHost;
  readonly #note: ProgressNote;

  constructor(tried: Tried, stored: StoredRoom, host: TryHost) {
    this.#tried = tried;
    this.#host = host;
    this.#note = new ProgressNote(lastChange(stored), host.noteProgress);
    tried.room.followers.add(this.#follow);
  }

  /** Follows what the room has changed while the try was out of memory. */
  catchUp(): void {
    const { people, judgeEntered } = this.#host;
    for (const { id } of people.own.members) this.noteMember(id);
    this.#noteTrying();
    if (people.access.trying.judging === "atOnce") judgeEntered(this.#tried.owner);
  }

  /** Name of the room whose problem is tried. */
  get room(): string {
    return this.#tried.room.name;
  }

  /** Gives the try the room's board, unless it has one. */
  begin(): void {
    if (this.#host.revision() > 0) return;
    // It is so from the start; said in the history as well, so that this tells by itself what was hidden.
    this.#host.change(this.#tried.owner, { do: "setAnswers", shown: false });
    this.#noteTrying();
    this.#takeBoard();
  }

  /** What becomes of a request that a try takes in a way of its own; null for those that it takes as any room does. */
  decide(participant: string, action: Exclude<RoomAction, TryAction>): Decision | null {
    if (action.do !== "beginAgain") return isAboutClass(action) ? { outcome: "refused", why: "inTry" } : null;
    const why = this.#againRefusal(participant);
    if (why !== null) return { outcome: "refused", why };
    this.#takeBoard();
    return { outcome: "nothing" };
  }

  #againRefusal(participant: string): RequestRefusal | null {
    if (participant !== this.#tried.owner) return "notOwner";
    const refusal = drawingRefusal(this.#host.people.access, participant);
    if (refusal === null) return null;
    return refusal === "ended" ? "ended" : "isObserver";
  }

  /** Has the history know who came in and what replays may call them, as it does in rooms that people join. */
  noteMember(participant: string): void {
    const member = findMember(this.#host.people.access, participant);
    if (!member) return;
    const { name, role, isNameKept } = member;
    const known = findMember(this.#host.people.own, participant);
    if (known?.name !== name || known.role !== role) {
      this.#host.change(participant, { do: "admit", participant, name, role });
    }
    if ((known?.isNameKept ?? true) !== isNameKept) {
      this.#host.change(participant, { do: "keepName", participant, keep: isNameKept });
    }
  }

  /** Has the history know what the room asks of those who try, which its replay shows. */
  #noteTrying(): void {
    const { people, record } = this.#host;
    const { trying } = people.access;
    if (JSON.stringify(trying) === JSON.stringify(people.own.trying)) return;
    const change: AccessChange = { do: "setTrying", trying };
    // It counts already, and whoever is here is told of it as the room is.
    people.change(change);
    record(ENTRY.settings, NOBODY, jsonBytes(change));
  }

  /** Something was drawn or entered. */
  changed(): void {
    this.#note.changed(this.#host.now());
  }

  /** To be called with the newest report, and when a try was kept. */
  count(report: Report | null, tries: readonly KeptTry[]): void {
    this.#note.counted(report ? countFound(report, tries) : { right: 0, cards: 0 });
  }

  left(): void {
    this.#note.flush();
  }

  destroy(): void {
    this.#tried.room.followers.delete(this.#follow);
    this.#note.destroy();
  }

  /** Keeps in step with the room: what changes there counts here at once. */
  readonly #follow = (change: AccessChange, isStored: boolean): void => {
    const { people, sendAway, tellOf, judgeEntered } = this.#host;
    const about = "participant" in change ? change.participant : null;
    if (about !== null && people.you(about) === null) {
      // Most of what happens in a room is about others; those who were here and may no longer be are sent away.
      if (people.peersOf(about).length > 0) sendAway(about);
      else if (about !== this.#tried.owner) return;
    }
    if (!isStored && change.do === "setTrying") this.#noteTrying();
    if (isStored) tellOf(change);
    else if (change.do === "setTrying" && change.trying.judging === "atOnce") judgeEntered(this.#tried.owner);
    else if (about !== null && findMember(people.own, about)) this.noteMember(about);
  };

  #takeBoard(): void {
    const { room, owner } = this.#tried;
    const { board, revision } = room.problem();
    const beginning: TryBeginning = { room: room.name, revision };
    this.#host.record(ENTRY.begin, owner, jsonBytes(beginning));
    this.#host.commit(
      owner,
      this.#host.doc.updateOf((copy) => replaceBoard(copy, board, LOCAL)),
    );
  }
}

/** When something was last drawn or entered, 0 where nothing ever was. */
function lastChange({ snapshot, entries }: StoredRoom): number {
  const ofWork: readonly string[] = [ENTRY.update, ENTRY.try];
  return entries.findLast(({ kind }) => ofWork.includes(kind))?.time ?? snapshot?.time ?? 0;
}
