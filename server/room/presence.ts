import * as decoding from "lib0/decoding";
import { Awareness, applyAwarenessUpdate, encodeAwarenessUpdate, removeAwarenessStates } from "y-protocols/awareness";
import * as Y from "yjs";
import type { Peer } from "./peer";

type Mention = { readonly client: number; readonly isGone: boolean };
type Change = { readonly added: number[]; readonly updated: number[]; readonly removed: number[] };

/**
 * Who is in a room and what their pages show of themselves (y-protocols' awareness). An awareness client is spoken for by
 * the connections that have shown it: its own, perhaps one that it lost and came back from, and those of other tabs of
 * the same browser. Only they can take it away, and it goes with the last of them.
 */
export class Presence {
  readonly #awareness = new Awareness(new Y.Doc());
  readonly #speakers = new Map<number, Set<Peer>>();
  readonly #clientLimit: number;
  readonly #used = new Map<Peer, Set<number>>();

  /** `onChange` is given an awareness update to pass on to everybody. */
  constructor(clientLimit: number, onChange: (update: Uint8Array) => void) {
    this.#clientLimit = clientLimit;
    // The server is nobody's cursor.
    this.#awareness.setLocalState(null);
    this.#awareness.on("update", ({ added, updated, removed }: Change) => {
      onChange(encodeAwarenessUpdate(this.#awareness, [...added, ...updated, ...removed]));
    });
  }

  /** Takes in an awareness update; gives the reason where it can't be read or asks for too much. */
  receive(peer: Peer, update: Uint8Array): string | null {
    const mentions = readMentions(update);
    if (!mentions) return "the awareness update is malformed";
    const used = this.#used.get(peer) ?? new Set();
    this.#used.set(peer, used);
    const shown = mentions.filter(({ isGone }) => !isGone).map(({ client }) => client);
    for (const client of shown) used.add(client);
    if (used.size > this.#clientLimit) return `one connection may show ${this.#clientLimit} awareness clients`;
    // A page takes others off its list when they have been silent, and says so; that is for their own connection to say.
    const isForeign = mentions.some(({ client, isGone }) => isGone && !this.#speakers.get(client)?.has(peer));
    if (isForeign) return null;
    for (const client of shown) this.#speakers.set(client, (this.#speakers.get(client) ?? new Set()).add(peer));
    applyAwarenessUpdate(this.#awareness, update, peer);
    return null;
  }

  /** Takes away what only this connection has shown. */
  leave(peer: Peer): void {
    const clients = [...(this.#used.get(peer) ?? [])];
    for (const client of clients) this.#speakers.get(client)?.delete(peer);
    const silent = clients.filter((client) => this.#speakers.get(client)?.size === 0);
    for (const client of silent) this.#speakers.delete(client);
    this.#used.delete(peer);
    removeAwarenessStates(this.#awareness, silent, peer);
  }

  /** Everybody, as an awareness update. */
  encode(): Uint8Array {
    return encodeAwarenessUpdate(this.#awareness, [...this.#awareness.getStates().keys()]);
  }

  /** Ends the timer that the awareness runs. */
  destroy(): void {
    this.#awareness.destroy();
    this.#awareness.doc.destroy();
  }
}

/** What an awareness update speaks of; null where any of it is malformed, so that applying it can't stop half way. */
function readMentions(update: Uint8Array): Mention[] | null {
  try {
    const decoder = decoding.createDecoder(update);
    const count = decoding.readVarUint(decoder);
    const mentions: Mention[] = [];
    for (let index = 0; index < count; index++) {
      const client = decoding.readVarUint(decoder);
      decoding.readVarUint(decoder);
      const state: unknown = JSON.parse(decoding.readVarString(decoder));
      if (typeof state !== "object" || Array.isArray(state)) return null;
      mentions.push({ client, isGone: state === null });
    }
    return decoder.pos === update.length ? mentions : null;
  } catch {
    return null;
  }
}
