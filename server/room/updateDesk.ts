import { unreachable } from "../../shared/circuit";
import type { Notice } from "../../shared/messages";
import type { Limits } from "../limits";
import { CLOSE } from "../sync/closeCode";
import { askStateFrame } from "../sync/serverFrame";
import type { Peer } from "./peer";
import type { People } from "./people";
import type { SharedDoc } from "./sharedDoc";

/** How often a client may send an update that builds on changes it didn't send, before it is let go. */
const INCOMPLETE_LIMIT = 3;

export type UpdateRoom = {
  readonly people: People;
  readonly doc: SharedDoc;
  readonly limits: Pick<Limits, "roomBytes">;
  readonly notify: (peers: Iterable<Peer>, notice: Notice) => void;
  /** Records what a client's update has changed on the board. */
  readonly commit: (participant: string, sender: Peer, update: Uint8Array) => void;
};

/** Takes in the changes of the board that clients send, or says why not. */
export class UpdateDesk {
  readonly #room: UpdateRoom;
  readonly #incomplete = new Map<Peer, number>();

  constructor(room: UpdateRoom) {
    this.#room = room;
  }

  take(peer: Peer, update: Uint8Array): void {
    const { people, doc, limits, notify, commit } = this.#room;
    const refusal = people.drawingRefusal(peer);
    if (refusal !== null) {
      // Who only looks still answers the server's question for news, mostly with none.
      const hasNews = doc.hasNews(update);
      if (hasNews === null) peer.close(CLOSE.badMessage, "the update can't be read");
      else if (hasNews) notify([peer], { code: "changeRefused", why: refusal });
      return;
    }
    if (!this.#hasSpaceFor(update)) {
      peer.close(CLOSE.tooLarge, `a room holds at most ${limits.roomBytes} bytes; the last change was not taken in`);
      return;
    }
    const applied = doc.apply(update);
    switch (applied.outcome) {
      case "refused":
        peer.close(CLOSE.badMessage, applied.reason);
        break;
      case "incomplete":
        this.#askForAll(peer);
        break;
      case "applied":
        this.#incomplete.delete(peer);
        if (applied.update) commit(peer.participant, peer, applied.update);
        break;
      default:
        unreachable(applied);
    }
  }

  leave(peer: Peer): void {
    this.#incomplete.delete(peer);
  }

  #hasSpaceFor(update: Uint8Array): boolean {
    const { doc, limits } = this.#room;
    if (doc.size + update.length <= limits.roomBytes) return true;
    // The size is an upper bound; compacting makes it exact.
    doc.compact();
    return doc.size + update.length <= limits.roomBytes;
  }

  #askForAll(peer: Peer): void {
    const count = (this.#incomplete.get(peer) ?? 0) + 1;
    this.#incomplete.set(peer, count);
    if (count <= INCOMPLETE_LIMIT) peer.send(askStateFrame(this.#room.doc.stateVector()));
    else peer.close(CLOSE.badMessage, "the updates build on changes that were never sent");
  }
}
