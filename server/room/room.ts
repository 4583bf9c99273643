import { unreachable } from "../../shared/circuit";
import { isTryAction, type JoinRoom, type Notice, type RoomRequest, type You } from "../../shared/messages";
import { type JoinRefusal, OPEN_ACCESS, type RoomAccess, TRY_ACCESS, tryRefusal } from "../access";
import { type Checker, foundIn, TryDesk } from "../check";
import { ENTRY, type EntryKind, jsonBytes, type RoomDirectory, type StoredRoom } from "../history";
import type { Limits } from "../limits";
import { RateLimit, RateLimits } from "../rateLimit";
import type { Solver } from "../solver";
import type { BoardAtTurn } from "../solver/solver";
import { type ClientMessage, readClientMessage } from "../sync/clientMessage";
import { CLOSE, type CloseCode } from "../sync/closeCode";
import { askStateFrame, awarenessFrame, stateFrame, updateFrame } from "../sync/serverFrame";
import { AccessDesk } from "./accessDesk";
import { accessFrom } from "./accessHistory";
import { Broadcast } from "./broadcast";
import { Listing } from "./listing";
import { OwnTry, type Tried, type TriedRoom, type TryHost } from "./ownTry";
import type { Peer } from "./peer";
import { People } from "./people";
import { Presence } from "./presence";
import { type LogServices, RoomLog } from "./roomLog";
import { SharedDoc } from "./sharedDoc";
import { Solving } from "./solving";
import { UpdateDesk } from "./updateDesk";
import { Watch } from "./watch";

/** What all rooms share. */
export type RoomServices = LogServices & {
  readonly limits: Limits;
  readonly directory: RoomDirectory;
  readonly solver: Solver;
  readonly checker: Checker;
};

/** A room in memory: its board, who is in it, and the order in which what they do is stored, passed on and solved. */
export class Room {
  readonly name: string;
  /** This room as the tries of its problem lean on it. */
  readonly tried: TriedRoom;
  readonly #services: RoomServices;
  readonly #listing: Listing;
  readonly #doc: SharedDoc;
  readonly #log: RoomLog;
  readonly #presence: Presence;
  readonly #watch: Watch;
  readonly #people: People;
  readonly #broadcast: Broadcast;
  readonly #solving: Solving;
  readonly #tries: TryDesk;
  readonly #updates: UpdateDesk;
  readonly #access: AccessDesk;
  readonly #ownTry: OwnTry | null;
  readonly #requests = new Map<Peer, RateLimit>();
  /** Number of the last change of the board. */
  #revision: number;

  /** `of` is given for a room that is somebody's own try: it counts on the room that it is a try of to stay in memory. */
  constructor(name: string, stored: StoredRoom, services: RoomServices, of: Tried | null = null) {
    const { snapshot, entries } = stored;
    const updates = entries.filter(({ kind }) => kind === ENTRY.update);
    const boards = updates.map(({ bytes }) => bytes);
    this.name = name;
    this.#services = services;
    this.#doc = new SharedDoc(snapshot ? [snapshot.bytes, ...boards] : boards, services.limits.updateStructs);
    this.#revision = updates.at(-1)?.sequence ?? snapshot?.sequence ?? 0;
    this.#people = new People(accessFrom(stored, of ? TRY_ACCESS : OPEN_ACCESS), of);
    this.#listing = new Listing({ name, people: this.#people, doc: this.#doc, isTry: of !== null }, services);
    this.#updates = new UpdateDesk({
      people: this.#people,
      doc: this.#doc,
      limits: services.limits,
      notify: (peers, notice) => this.#broadcast.notify(peers, notice),
      commit: (participant, sender, update) => this.#commit(participant, sender, update),
    });
    this.#broadcast = new Broadcast(this.#people, (report) => (of ? foundIn(report, this.#tries.told) : () => false));
    this.#watch = new Watch({ record: this.#record, now: services.now });
    this.#presence = new Presence(
      services.limits,
      (update) => this.#offer(awarenessFrame(update)),
      (participant, state) => this.#watch.see(participant, state),
    );
    this.#log = new RoomLog(name, stored, services, () => {
      const bytes = this.#doc.compact();
      if (!bytes) return null;
      const { kept: tries, keptSteps: steps } = this.#tries;
      return { bytes, thin: this.#doc.thin(), access: JSON.stringify({ ...this.#people.own, tries, steps }) };
    });
    this.tried = {
      name,
      people: this.#people,
      rates: of?.room.rates ?? new RateLimits(services.limits.tryRate),
      helpRates: of?.room.helpRates ?? new RateLimits(services.limits.helpRate),
      problem: () => ({ board: this.#doc.board, revision: this.#revision }),
      followers: new Set(),
    };
    this.#tries = this.#openTries(stored);
    this.#access = this.#openAccess();
    this.#solving = this.#openSolving();
    this.#ownTry = of && new OwnTry(of, stored, this.#host());
    this.#ownTry?.catchUp();
  }

  get size(): number {
    return this.#people.size;
  }

  /** The connections of one participant, oldest first. */
  peersOf(participant: string): readonly Peer[] {
    return this.#people.peersOf(participant);
  }

  get title(): string {
    return this.#doc.title;
  }

  get isEnded(): boolean {
    return this.#people.access.isEnded;
  }

  /** Who belongs to the room and may do what now, stored or not. */
  get access(): RoomAccess {
    return this.#people.access;
  }

  /** Name of the room of whose problem this is somebody's own try, which nobody joins by a code or link; null in others. */
  get tryOf(): string | null {
    return this.#ownTry?.room ?? null;
  }

  /** Whether all that happened in the room is stored. */
  get isStored(): boolean {
    return this.#log.isStored;
  }

  /** Who a participant is here; null for strangers and for those who were removed. */
  you(participant: string): You | null {
    return this.#people.you(participant);
  }

  isRemoved(participant: string): boolean {
    return this.#people.isRemoved(participant);
  }

  /** Makes somebody a member, under a name that is free. Once it resolves, the membership is stored. */
  admit(participant: string, asked: JoinRoom, holdsKey: boolean): Promise<You | JoinRefusal> {
    return this.#access.admit(participant, asked, holdsKey);
  }

  /** Puts a whole board into a new room, as its maker's first change. */
  begin(participant: string, update: Uint8Array): void {
    const applied = this.#doc.apply(update);
    if (applied.outcome !== "applied") throw new Error(`a room can't begin with this board: ${applied.outcome}`);
    if (applied.update) this.#commit(participant, null, applied.update);
  }

  /** Gives a try that was just made the board of the room that it is a try of. Resolves once that is stored. */
  beginTry(): Promise<void> {
    this.#ownTry?.begin();
    return this.stored();
  }

  join(peer: Peer): void {
    const { participant } = peer;
    const { recorder, limits, now } = this.#services;
    const isFirst = this.#people.enter(peer);
    this.#requests.set(peer, new RateLimit(limits.requestRate, now()));
    if (recorder.problem !== null) this.#broadcast.notify([peer], { code: "notStoring", reason: recorder.problem });
    this.catchUp(peer);
    if (!isFirst) return;
    const you = this.#people.you(participant);
    this.#ownTry?.noteMember(participant);
    this.#record(ENTRY.join, participant, jsonBytes({ name: you?.name, role: you?.role }));
    this.#listing.noteVisit(participant);
    this.#broadcast.tellStateSoon();
  }

  leave(peer: Peer): void {
    const { participant } = peer;
    const isLast = this.#people.leave(peer);
    this.#updates.leave(peer);
    this.#requests.delete(peer);
    this.#presence.leave(peer);
    if (!isLast) return;
    this.#watch.leave(participant);
    this.#record(ENTRY.leave, participant, jsonBytes({}));
    if (this.#people.you(participant)) this.#listing.noteVisit(participant);
    this.#ownTry?.left();
    this.#broadcast.tellStateSoon();
  }

  /**
   * Takes in one frame, and says whether it left something to be stored. A frame that is at fault ends its sender's
   * connection with a reason, and touches nobody else.
   */
  receive(peer: Peer, frame: Uint8Array): boolean {
    const before = this.#log.sequence;
    const read = readClientMessage(frame);
    if (read.ok) this.#handle(peer, read.message);
    else peer.close(CLOSE.badMessage, read.reason);
    return this.#log.sequence > before;
  }

  /** Gives a peer the newest of all that it can miss: who is here, what they may do, the answers and the workings. */
  catchUp(peer: Peer): void {
    peer.offer(awarenessFrame(this.#presence.encode()));
    if (!peer.wantsAnswers) return;
    this.#broadcast.tellState([peer]);
    this.#tries.tell([peer]);
    if (this.#broadcast.revision !== this.#revision) {
      this.#solving.request();
      return;
    }
    this.#broadcast.giveAnswers([peer]);
    if (this.#broadcast.workings.revision === this.#revision) this.#broadcast.giveWorkings([peer]);
    else this.#solving.follow();
  }

  notify(notice: Notice): void {
    this.#broadcast.notify(this.#people, notice);
  }

  closePeers(code: CloseCode, reason: string): void {
    for (const peer of this.#people) peer.close(code, reason);
  }

  /** Puts something that a member did over HTTP into the history. Resolves once it is stored. */
  note(kind: EntryKind, participant: string, body: object): Promise<void> {
    return new Promise((resolve) => void this.#log.record(kind, participant, jsonBytes(body), resolve));
  }

  /** Resolves once all that has happened so far is stored. */
  stored(): Promise<void> {
    return new Promise((resolve) => this.#log.after(this.#log.sequence, 0, resolve));
  }

  /** Sends everybody away for good and records nothing any more: the room is being deleted. */
  close(): void {
    this.#log.close();
    this.notify({ code: "deleted" });
    this.closePeers(CLOSE.deleted, "the instructor has deleted this room");
  }

  /** Lets go of all that the room holds. Nothing may be asked of it afterwards. */
  destroy(): void {
    this.#ownTry?.destroy();
    this.#broadcast.destroy();
    this.#tries.destroy();
    this.#services.solver.forget(this.name);
    this.#watch.destroy();
    this.#presence.destroy();
    this.#doc.destroy();
  }

  #handle(peer: Peer, message: ClientMessage): void {
    switch (message.type) {
      case "askState":
        this.#answerState(peer, message.stateVector);
        break;
      case "update":
        this.#updates.take(peer, message.update);
        break;
      case "awareness":
        this.#presence.receive(peer, message.update, this.#people.you(peer.participant));
        break;
      case "askAwareness":
        peer.offer(awarenessFrame(this.#presence.encode()));
        break;
      case "request":
        this.#request(peer, message.request);
        break;
      default:
        unreachable(message);
    }
  }

  #answerState(peer: Peer, stateVector: Uint8Array): void {
    const missing = this.#doc.encodeSince(stateVector);
    if (!missing) {
      peer.close(CLOSE.badMessage, "the state vector is malformed");
      return;
    }
    if (this.#log.heldBytes + missing.length > this.#services.limits.heldBytes) {
      peer.close(CLOSE.unavailable, "the room can't be saved at the moment, so nobody can join it");
      return;
    }
    this.#log.after(this.#revision, missing.length, () => peer.send(stateFrame(missing)));
    peer.send(askStateFrame(this.#doc.stateVector()));
  }

  /** Records what nothing waits for. */
  readonly #record = (kind: EntryKind, participant: string, bytes: Uint8Array): void => {
    this.#log.record(kind, participant, bytes, () => {});
  };

  /** Records what changed on the board; it is passed on once it is stored. */
  #commit(participant: string, sender: Peer | null, update: Uint8Array): void {
    this.#revision = this.#log.record(ENTRY.update, participant, update, () => this.#relay(sender, update));
    this.#ownTry?.changed();
    this.#solving.request();
  }

  #relay(sender: Peer | null, update: Uint8Array): void {
    const frame = updateFrame(update);
    for (const peer of this.#people) if (peer !== sender) peer.send(frame);
  }

  #request(peer: Peer, { id, ...action }: RoomRequest): void {
    if (!this.#requests.get(peer)?.take(this.#services.now())) {
      peer.close(CLOSE.tooMany, "more requests than a person can make");
      return;
    }
    if (isTryAction(action)) this.#tries.take(peer, id, action);
    else this.#access.request(peer, { id, ...action });
  }

  /** This room, as the try that it is uses it. */
  #host(): TryHost {
    return {
      people: this.#people,
      doc: this.#doc,
      revision: () => this.#revision,
      change: (by, change) => this.#access.change(by, change),
      record: this.#record,
      commit: (participant, update) => this.begin(participant, update),
      tellOf: (change) => this.#access.tellOf(change),
      sendAway: (participant) => this.#access.sendAway(participant),
      judgeEntered: (by) => void this.#tries.judgeEntered(by, null),
      noteProgress: (progress) => this.#listing.noteProgress(progress),
      now: this.#services.now,
    };
  }

  #openAccess(): AccessDesk {
    return new AccessDesk({
      people: this.#people,
      broadcast: this.#broadcast,
      revision: () => this.#revision,
      followers: this.tried.followers,
      tries: () => this.#tries,
      ownTry: () => this.#ownTry,
      record: (kind, participant, bytes, whenStored) => void this.#log.record(kind, participant, bytes, whenStored),
      listing: this.#listing,
    });
  }

  #openSolving(): Solving {
    return new Solving({
      name: this.name,
      people: this.#people,
      broadcast: this.#broadcast,
      solver: this.#services.solver,
      board: () => this.#board(),
      revision: () => this.#revision,
      whenStored: (revision, deliver) => this.#log.after(revision, 0, deliver),
      record: this.#record,
      onReport: (report) => {
        this.#tries.follow(report);
        this.#ownTry?.count(report, this.#tries.told);
      },
    });
  }

  #openTries(stored: StoredRoom): TryDesk {
    const room = {
      peers: this.#people,
      board: () => ({ key: `${this.name} ${this.#revision}`, board: this.#doc.encode() }),
      asker: (participant: string) => ({
        name: this.#people.you(participant)?.name ?? null,
        refusal: tryRefusal(this.#people.access, participant),
      }),
      trying: () => this.#people.access.trying,
      isInstructor: (peer: Peer) => this.#people.isInstructor(peer),
      record: (kind: EntryKind, participant: string, made: object, whenStored: () => void) =>
        void this.#log.record(kind, participant, jsonBytes(made), () => {
          whenStored();
          if (kind === ENTRY.try) this.#afterTry();
        }),
    };
    const { checker, now } = this.#services;
    return new TryDesk(stored, room, { checker, rates: this.tried.rates, helpRates: this.tried.helpRates, now });
  }

  /** In a try, a value that was found is sent with the answers. */
  #afterTry(): void {
    if (!this.#ownTry) return;
    this.#ownTry.changed();
    this.#ownTry.count(this.#broadcast.answers?.report ?? null, this.#tries.told);
    this.#broadcast.showOthers();
    this.#broadcast.giveAnswers(this.#people);
  }

  #board(): BoardAtTurn {
    return { revision: this.#revision, board: this.#doc.encode() };
  }

  #offer(frame: Uint8Array): void {
    for (const peer of this.#people) peer.offer(frame);
  }
}
