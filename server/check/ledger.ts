import { type TriesMessage, writeTries } from "../../shared/messages";
import type { Report } from "../../shared/solve";
import type { EntryKind } from "../history";
import type { Peer } from "../room/peer";
import type { Listener } from "./toldTry";

/** What a ledger needs of its room. */
export type LedgerRoom = {
  readonly peers: Iterable<Peer>;
  readonly isInstructor: (peer: Peer) => boolean;
  /** Puts what was tried, or what happens about it, into the history. */
  readonly record: (kind: EntryKind, participant: string, made: object, whenStored: () => void) => void;
};

/**
 * What a room keeps of what is tried, with the help that was asked for: kept at once, and told once it is stored. `Kept` is
 * what was tried, `Event` what happens about it.
 */
export abstract class Ledger<Kept extends object, Event extends object> {
  readonly #room: LedgerRoom;
  #kept: readonly Kept[];
  #told: readonly Kept[];
  #report: Report | null | undefined;
  #lastTold = "";

  constructor(room: LedgerRoom, kept: readonly Kept[]) {
    this.#room = room;
    this.#kept = kept;
    this.#told = kept;
  }

  get kept(): readonly Kept[] {
    return this.#kept;
  }

  /** The kept ones as far as they are stored, which is what everybody has been told. */
  get told(): readonly Kept[] {
    return this.#told;
  }

  /** The newest report; undefined before the room has been solved since it was loaded. */
  protected get report(): Report | null | undefined {
    return this.#report;
  }

  /** Takes in what happened, and stores it; once it is stored, everybody is told, and then `whenStored` called. */
  record(participant: string, made: Kept | Event, whenStored: () => void): void {
    this.#kept = this.after(made);
    const kept = this.#kept;
    this.#room.record(this.kindOf(made), participant, made, () => {
      this.#told = kept;
      this.#tellAll();
      whenStored();
    });
  }

  /** Compares what was judged with newer answers, and tells where that makes a difference. */
  follow(report: Report | null): void {
    this.#report = report;
    this.#tellAll();
  }

  /** Gives peers the newest of it. A room where nobody has tried anything has none to give. */
  tell(peers: Iterable<Peer>): void {
    if (this.#told.length === 0) return;
    const whole = writeTries(this.message("instructor"));
    const cut = writeTries(this.message("other"));
    for (const peer of peers) if (peer.wantsAnswers) peer.offer(this.#room.isInstructor(peer) ? whole : cut);
  }

  /** What is kept after something happened. */
  protected abstract after(made: Kept | Event): readonly Kept[];

  /** Which entry of the history it becomes. */
  protected abstract kindOf(made: Kept | Event): EntryKind;

  /** What is {@link told}, as it may be sent. */
  protected abstract message(to: Listener): TriesMessage;

  #tellAll(): void {
    if (this.#told.length === 0) return;
    const message = JSON.stringify(this.message("instructor"));
    if (message === this.#lastTold) return;
    this.#lastTold = message;
    this.tell(this.#room.peers);
  }
}
