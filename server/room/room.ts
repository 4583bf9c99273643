import { unreachable } from "../../shared/circuit";
import { type Answers, type Notice, writeAnswers, writeNotice } from "../../shared/messages";
import { BOARD_UPDATE, type HistoryStore, type Recorder, type StoredRoom } from "../history";
import type { Limits } from "../limits";
import type { Log } from "../log";
import type { Solver } from "../solver";
import { type ClientMessage, readClientMessage } from "../sync/clientMessage";
import { CLOSE, type CloseCode } from "../sync/closeCode";
import { askStateFrame, awarenessFrame, stateFrame, updateFrame } from "../sync/serverFrame";
import type { Peer } from "./peer";
import { Presence } from "./presence";
import { SharedDoc } from "./sharedDoc";
import { SnapshotPlan } from "./snapshotPlan";
import { StoreGate } from "./storeGate";

/** What all rooms share. */
export type RoomServices = {
  readonly limits: Limits;
  readonly store: HistoryStore;
  readonly recorder: Recorder;
  readonly solver: Solver;
  readonly log: Log;
  /** Milliseconds since 1970. */
  readonly now: () => number;
};

/** How often a client may send an update that builds on changes it didn't send, before it is let go. */
const INCOMPLETE_LIMIT = 3;
/** Until rooms know their participants, all changes are recorded under this name. */
const UNKNOWN = "unknown";

/** A room in memory: its board, who is in it, and the order in which what they do is stored, passed on and solved. */
export class Room {
  readonly name: string;
  readonly #services: RoomServices;
  readonly #doc: SharedDoc;
  readonly #gate: StoreGate;
  readonly #presence: Presence;
  readonly #snapshots: SnapshotPlan;
  readonly #peers = new Set<Peer>();
  readonly #incomplete = new Map<Peer, number>();
  #sequence: number;
  #answers: Answers | null = null;

  constructor(name: string, stored: StoredRoom, services: RoomServices) {
    const { snapshot, entries } = stored;
    const updates = entries.filter(({ kind }) => kind === BOARD_UPDATE).map(({ bytes }) => bytes);
    this.name = name;
    this.#services = services;
    this.#doc = new SharedDoc(snapshot ? [snapshot.bytes, ...updates] : updates, services.limits.updateStructs);
    this.#sequence = entries.at(-1)?.sequence ?? snapshot?.sequence ?? 0;
    this.#gate = new StoreGate(this.#sequence);
    this.#snapshots = new SnapshotPlan(snapshot?.bytes.length ?? 0, updates);
    this.#presence = new Presence(services.limits.awarenessClients, (update) => this.#offer(awarenessFrame(update)));
  }

  get size(): number {
    return this.#peers.size;
  }

  /** Whether all that happened in the room is stored. */
  get isStored(): boolean {
    return this.#gate.stored === this.#sequence;
  }

  join(peer: Peer): void {
    this.#peers.add(peer);
    const { problem } = this.#services.recorder;
    if (problem !== null) this.#notify([peer], { code: "notStoring", reason: problem });
    this.catchUp(peer);
  }

  leave(peer: Peer): void {
    this.#peers.delete(peer);
    this.#incomplete.delete(peer);
    this.#presence.leave(peer);
  }

  /**
   * Takes in one frame, and says whether it left something to be stored. A frame that is at fault ends its sender's
   * connection with a reason, and touches nobody else.
   */
  receive(peer: Peer, frame: Uint8Array): boolean {
    const before = this.#sequence;
    const read = readClientMessage(frame);
    if (read.ok) this.#handle(peer, read.message);
    else peer.close(CLOSE.badMessage, read.reason);
    return this.#sequence > before;
  }

  /** Gives a peer the newest of all that it can miss: who is here, and the answers. */
  catchUp(peer: Peer): void {
    peer.offer(awarenessFrame(this.#presence.encode()));
    if (!peer.wantsAnswers) return;
    if (this.#answers?.revision === this.#sequence) peer.offer(writeAnswers(this.#answers));
    else this.#requestAnswers();
  }

  notify(notice: Notice): void {
    this.#notify(this.#peers, notice);
  }

  closePeers(code: CloseCode, reason: string): void {
    for (const peer of this.#peers) peer.close(code, reason);
  }

  /** Lets go of all that the room holds. Nothing may be asked of it afterwards. */
  destroy(): void {
    this.#services.solver.forget(this.name);
    this.#presence.destroy();
    this.#doc.destroy();
  }

  #handle(peer: Peer, message: ClientMessage): void {
    switch (message.type) {
      case "askState":
        this.#answerState(peer, message.stateVector);
        break;
      case "update":
        this.#update(peer, message.update);
        break;
      case "awareness":
        this.#showPresence(peer, message.update);
        break;
      case "askAwareness":
        peer.offer(awarenessFrame(this.#presence.encode()));
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
    if (this.#gate.heldBytes + missing.length > this.#services.limits.heldBytes) {
      peer.close(CLOSE.unavailable, "the room can't be saved at the moment, so nobody can join it");
      return;
    }
    this.#gate.pass(this.#sequence, missing.length, () => peer.send(stateFrame(missing)));
    peer.send(askStateFrame(this.#doc.stateVector()));
  }

  #update(peer: Peer, update: Uint8Array): void {
    const { roomBytes } = this.#services.limits;
    if (!this.#hasSpaceFor(update)) {
      peer.close(CLOSE.tooLarge, `a room holds at most ${roomBytes} bytes; the last change was not taken in`);
      return;
    }
    const applied = this.#doc.apply(update);
    switch (applied.outcome) {
      case "refused":
        peer.close(CLOSE.badMessage, applied.reason);
        break;
      case "incomplete":
        this.#askForAll(peer);
        break;
      case "applied":
        this.#incomplete.delete(peer);
        if (applied.update) this.#commit(peer, applied.update);
        break;
      default:
        unreachable(applied);
    }
  }

  #hasSpaceFor(update: Uint8Array): boolean {
    const { roomBytes } = this.#services.limits;
    if (this.#doc.size + update.length <= roomBytes) return true;
    // The size is an upper bound; compacting makes it exact.
    this.#doc.compact();
    return this.#doc.size + update.length <= roomBytes;
  }

  #askForAll(peer: Peer): void {
    const count = (this.#incomplete.get(peer) ?? 0) + 1;
    this.#incomplete.set(peer, count);
    if (count <= INCOMPLETE_LIMIT) peer.send(askStateFrame(this.#doc.stateVector()));
    else peer.close(CLOSE.badMessage, "the updates build on changes that were never sent");
  }

  /** Records what changed; it is passed on once it is stored. */
  #commit(sender: Peer, update: Uint8Array): void {
    const sequence = ++this.#sequence;
    const { recorder, now } = this.#services;
    const entry = { room: this.name, sequence, time: now(), participant: UNKNOWN, kind: BOARD_UPDATE, bytes: update };
    this.#gate.pass(sequence, update.length, () => this.#relay(sender, update));
    recorder.record(entry, () => this.#gate.open(sequence));
    if (this.#snapshots.isDueAfter(update)) this.#writeSnapshot();
    this.#requestAnswers();
  }

  #relay(sender: Peer, update: Uint8Array): void {
    const frame = updateFrame(update);
    for (const peer of this.#peers) if (peer !== sender) peer.send(frame);
  }

  #writeSnapshot(): void {
    const bytes = this.#doc.compact();
    if (!bytes) return;
    const { store, log, now } = this.#services;
    const snapshot = { room: this.name, sequence: this.#sequence, time: now(), bytes };
    this.#snapshots.taken(bytes);
    // Never ahead of the entries that it stands for.
    this.#gate.pass(snapshot.sequence, bytes.length, () => {
      store.writeSnapshot(snapshot).catch((error: unknown) => log.warn(`no snapshot of room "${this.name}"`, error));
    });
  }

  #showPresence(peer: Peer, update: Uint8Array): void {
    const { awarenessBytes } = this.#services.limits;
    if (update.length > awarenessBytes) {
      const reason = `an awareness update has at most ${awarenessBytes} bytes, not ${update.length}`;
      peer.close(CLOSE.tooLarge, reason);
      return;
    }
    const problem = this.#presence.receive(peer, update);
    if (problem !== null) peer.close(CLOSE.badMessage, problem);
  }

  /** Solving is for those who look at answers; a room of stock clients costs none. */
  #requestAnswers(): void {
    if (![...this.#peers].some((peer) => peer.wantsAnswers)) return;
    this.#services.solver.request({
      room: this.name,
      take: () => ({ revision: this.#sequence, board: this.#doc.encode() }),
      deliver: (answers) => this.#gate.pass(answers.revision, 0, () => this.#deliver(answers)),
    });
  }

  #deliver(answers: Answers): void {
    if (this.#answers && this.#answers.revision > answers.revision) return;
    this.#answers = answers;
    const frame = writeAnswers(answers);
    for (const peer of this.#peers) if (peer.wantsAnswers) peer.offer(frame);
  }

  #offer(frame: Uint8Array): void {
    for (const peer of this.#peers) peer.offer(frame);
  }

  #notify(peers: Iterable<Peer>, notice: Notice): void {
    const frame = writeNotice(notice);
    for (const peer of peers) if (peer.wantsAnswers) peer.send(frame);
  }
}
