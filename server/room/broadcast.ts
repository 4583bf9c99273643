import { type Notice, type RoomView, writeCall, writeNotice, writeRoomState } from "../../shared/messages";
import type { Showing } from "../access";
import type { DerivedWorkings, SolvedAnswers } from "../solver";
import { AnswersDesk, type ShownParts } from "./answersDesk";
import type { Peer } from "./peer";
import type { People } from "./people";
import { WorkingsDesk } from "./workingsDesk";

/** How long others wait to hear who came or went, in ms, so that a class that comes in together is told of once. */
const STATE_DELAY = 50;

/** Sends a room's people what they may know, each their own: only those who understand messages of our own get any. */
export class Broadcast {
  readonly #people: People;
  readonly #answers = new AnswersDesk();
  readonly #workings = new WorkingsDesk();
  readonly #showing: Showing & ShownParts;
  #stateTimer: NodeJS.Timeout | null = null;
  #onWorkings: () => void = () => {};

  /** `foundIn` tells which values of a report those who don't instruct have found themselves, and so are sent. */
  constructor(people: People, foundIn: ShownParts["foundIn"]) {
    this.#people = people;
    this.#showing = {
      isShown: (card) => people.isShown(card),
      linesOf: (wanted, card) => people.linesOf(wanted, card),
      foundIn,
    };
  }

  /** Number of the change that the newest answers take in, −1 where there are none. */
  get revision(): number {
    return this.#answers.revision;
  }

  /** The newest answers; null where there are none yet. */
  get answers(): SolvedAnswers | null {
    return this.#answers.answers;
  }

  /** The newest workings, with revision −1 where there are none yet. */
  get workings(): DerivedWorkings {
    return this.#workings.workings;
  }

  /** Takes answers in and passes them on, unless newer ones are here. */
  deliver(answers: SolvedAnswers): void {
    if (this.#answers.take(answers)) this.giveAnswers(this.#people);
  }

  /** Takes workings in and passes them on, unless newer ones are here or nothing in them is new. */
  deliverWorkings(workings: DerivedWorkings): void {
    if (this.#workings.take(workings)) this.giveWorkings(this.#people);
    this.#onWorkings();
  }

  /** Calls back each time after workings were taken in. */
  whenWorkedOut(callBack: () => void): void {
    this.#onWorkings = callBack;
  }

  /** To be called when other cards or lines are shown than before, or hidden. */
  showOthers(): void {
    this.#answers.showOthers();
    this.#workings.showOthers();
  }

  /** Sends each the answers that it may have: what is hidden from it is not in the frame. */
  giveAnswers(peers: Iterable<Peer>): void {
    for (const peer of peers) {
      if (!peer.wantsAnswers) continue;
      const frame = this.#people.isInstructor(peer)
        ? this.#answers.wholeFrame()
        : this.#answers.shownFrame(this.#showing);
      if (frame) peer.offer(frame);
    }
  }

  /** Sends each the worked lines that it may have, and no others. */
  giveWorkings(peers: Iterable<Peer>): void {
    for (const peer of peers) {
      if (!peer.wantsAnswers) continue;
      const frame = this.#people.isInstructor(peer)
        ? this.#workings.wholeFrame(this.#showing)
        : this.#workings.cutFrame(this.#showing);
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
