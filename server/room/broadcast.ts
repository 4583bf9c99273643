import { type Notice, type RoomView, writeCall, writeNotice, writeRoomState } from "../../shared/messages";
import type { SolvedAnswers } from "../solver";
import { AnswersDesk } from "./answersDesk";
import type { Peer } from "./peer";
import type { People } from "./people";

/** How long others wait to hear who came or went, in ms, so that a class that comes in together is told of once. */
const STATE_DELAY = 50;

/** Sends a room's people what they may know, each their own: only those who understand messages of our own get any. */
export class Broadcast {
  readonly #people: People;
  readonly #answers = new AnswersDesk();
  #stateTimer: NodeJS.Timeout | null = null;

  constructor(people: People) {
    this.#people = people;
  }

  /** Number of the change that the newest answers take in, −1 where there are none. */
  get revision(): number {
    return this.#answers.revision;
  }

  /** Takes answers in and passes them on, unless newer ones are here. */
  deliver(answers: SolvedAnswers): void {
    if (this.#answers.take(answers)) this.giveAnswers(this.#people);
  }

  /** To be called when other cards are shown than before, or hidden. */
  showOthers(): void {
    this.#answers.showOthers();
  }

  /** Sends each the answers that it may have: what is hidden from it is not in the frame. */
  giveAnswers(peers: Iterable<Peer>): void {
    for (const peer of peers) {
      if (!peer.wantsAnswers) continue;
      const frame = this.#people.isInstructor(peer)
        ? this.#answers.wholeFrame()
        : this.#answers.shownFrame((card) => this.#people.isShown(card));
      if (frame) peer.offer(frame);
    }
  }

  /** Tells peers the room as it is stored: who is in it and what they may do. */
  tellState(peers: Iterable<Peer>): void {
    for (const peer of peers) {
      const state = peer.wantsAnswers ? this.#people.roomState(peer) : null;
      if (state) peer.offer(writeRoomState(state));
    }
  }

  tellStateSoon(): void {
    this.#stateTimer ??= setTimeout(() => {
      this.#stateTimer = null;
      this.tellState(this.#people);
    }, STATE_DELAY).unref();
  }

  notify(peers: Iterable<Peer>, notice: Notice): void {
    const frame = writeNotice(notice);
    for (const peer of peers) if (peer.wantsAnswers) peer.send(frame);
  }

  /** Brings everybody but the caller to the caller's view. */
  call(caller: Peer, view: RoomView): void {
    const frame = writeCall({ from: this.#people.you(caller.participant)?.name ?? "", view });
    for (const peer of this.#people) if (peer !== caller && peer.wantsAnswers) peer.send(frame);
  }

  /** Ends the timer that may be running. */
  destroy(): void {
    if (this.#stateTimer) clearTimeout(this.#stateTimer);
  }
}
