import { unreachable } from "../../shared/circuit";
import type { JoinRoom, RoomRequest, TryAction, You } from "../../shared/messages";
import { type AccessChange, decide, decideJoin, findMember, type JoinRefusal } from "../access";
import type { TryDesk } from "../check";
import { ENTRY, type EntryKind, jsonBytes } from "../history";
import { CLOSE } from "../sync/closeCode";
import { kindOf } from "./accessHistory";
import { type AwaitedLines, withAwaited } from "./awaitedLines";
import type { Broadcast } from "./broadcast";
import type { Listing } from "./listing";
import type { OwnTry, TriedRoom } from "./ownTry";
import type { Peer } from "./peer";
import type { People } from "./people";

/** What the desk needs of its room. */
export type AccessRoom = {
  readonly people: People;
  readonly broadcast: Broadcast;
  /** Number of the last change of the board. */
  readonly revision: () => number;
  readonly followers: TriedRoom["followers"];
  readonly tries: () => TryDesk;
  /** Null in a room that is nobody's own try. */
  readonly ownTry: () => OwnTry | null;
  readonly record: (kind: EntryKind, participant: string, bytes: Uint8Array, whenStored: () => void) => void;
  readonly listing: Listing;
};

/** Lets people into a room and takes in what they ask of it: all that changes who may do and see what. */
export class AccessDesk {
  readonly #room: AccessRoom;
  #awaited: readonly AwaitedLines[] = [];

  constructor(room: AccessRoom) {
    this.#room = room;
    room.broadcast.whenWorkedOut(() => this.#decideAgain());
  }

  /** Makes somebody a member, under a name that is free. Once it resolves, the membership is stored. */
  async admit(participant: string, asked: Omit<JoinRoom, "key">, holdsKey: boolean): Promise<You | JoinRefusal> {
    const { people, listing } = this.#room;
    const admission = decideJoin(people.access, participant, asked, holdsKey);
    if (admission.outcome === "refused") return admission.why;
    const { name, role } = admission.change;
    const before = people.you(participant);
    if (before?.name !== name || before.role !== role) await this.#changed(participant, admission.change);
    const isNameKept = findMember(people.access, participant)?.isNameKept ?? true;
    const keep = asked.keepName ?? isNameKept;
    if (keep !== isNameKept && !people.access.isEnded) {
      await this.#changed(participant, { do: "keepName", participant, keep });
    }
    listing.noteVisit(participant);
    return { id: participant, name, role };
  }

  /** Does what a page asks for, or says why not. */
  request(peer: Peer, { id, ...action }: Exclude<RoomRequest, TryAction>): void {
    const { people, broadcast, ownTry, record, revision } = this.#room;
    const { participant } = peer;
    const decision =
      ownTry()?.decide(participant, action) ?? decide(people.access, participant, action, broadcast.workings);
    if (decision.outcome !== "refused") {
      const known = { revision: revision(), workedOut: broadcast.workings.revision };
      this.#awaited = withAwaited(this.#awaited, participant, action, known);
    }
    switch (decision.outcome) {
      case "refused":
        broadcast.notify([peer], { code: "requestRefused", id, why: decision.why });
        break;
      case "nothing":
        break;
      case "change":
        this.change(participant, decision.change);
        break;
      case "call":
        record(ENTRY.call, participant, jsonBytes(decision.view), () => broadcast.call(peer, decision.view));
        break;
      default:
        unreachable(decision);
    }
  }

  /** Takes in what changes who may do what. It is enforced at once, and told and shown once it is stored. */
  change(by: string, change: AccessChange, whenStored: () => void = () => {}): void {
    const { people, broadcast, followers, tries, record } = this.#room;
    const access = people.change(change);
    broadcast.showOthers();
    record(kindOf(change), by, jsonBytes(change), () => {
      people.tell(access);
      broadcast.showOthers();
      this.tellOf(change);
      for (const follow of followers) follow(change, true);
      whenStored();
    });
    // What waited to be handed in is judged now, as everything is from now on.
    if (change.do === "setTrying" && change.trying.judging === "atOnce") void tries().judgeEntered(by, null);
    if (change.do === "removeParticipant") this.sendAway(change.participant);
    for (const follow of followers) follow(change, false);
  }

  /** Tells everybody what a change that is stored makes of the room. */
  tellOf(change: AccessChange): void {
    const { people, broadcast, tries } = this.#room;
    const affected = people.affectedBy(change);
    broadcast.giveAnswers(affected.answers);
    broadcast.giveWorkings(affected.workings);
    // Whoever has become an instructor may read reasons.
    if (change.do === "admit") tries().tell(affected.answers);
    broadcast.tellState(people);
    if (change.do === "end") broadcast.notify(people, { code: "ended" });
  }

  /** Ends the connections of somebody who does not belong here any more. */
  sendAway(participant: string): void {
    const { people, broadcast, listing } = this.#room;
    const peers = people.peersOf(participant);
    broadcast.notify(peers, { code: "removed" });
    for (const peer of peers) peer.close(CLOSE.removed, "the instructor has removed you from this room");
    listing.noteVisit(participant);
  }

  /** Decides again on wishes that came before it was known what their lines tell. */
  #decideAgain(): void {
    const { people, broadcast } = this.#room;
    const { workings } = broadcast;
    const isKnown = ({ revision }: AwaitedLines) => revision <= workings.revision;
    const known = this.#awaited.filter(isKnown);
    this.#awaited = this.#awaited.filter((each) => !isKnown(each));
    for (const { participant, action } of known) {
      const decision = decide(people.access, participant, action, workings);
      if (decision.outcome === "change") this.change(participant, decision.change);
    }
  }

  #changed(by: string, change: AccessChange): Promise<void> {
    return new Promise((resolve) => this.change(by, change, resolve));
  }
}
