import * as decoding from "lib0/decoding";
import { Awareness, applyAwarenessUpdate, encodeAwarenessUpdate, removeAwarenessStates } from "y-protocols/awareness";
import * as Y from "yjs";
import type { Peer } from "./peer";

type Mention = { readonly client: number; readonly isGone: boolean };
type Change = { readonly added: number[]; readonly updated: number[]; readonly removed: number[] };

/** Entries of clients that are gone are kept, so that late echoes of them are known as such; above this they are dropped. */
const GONE_LIMIT = 1000;

/**
 * Who is in a room and what their pages show of themselves (y-protocols' awareness). A stock client sends back whatever
 * it is sent, so a state counts as a connection's own only where it was news. An awareness client is spoken for by the
 * connections that brought such news: its own, perhaps one that it lost and came back from, perhaps those of other tabs of
 * the same browser. Only they can take it away, and it goes with the last of them.
 */
export class Presence {
  readonly #awareness = new Awareness(new Y.Doc());
  readonly #speakers = new Map<number, Set<Peer>>();
  readonly #clientLimit: number;
  readonly #spokenBy = new Map<Peer, Set<number>>();

  /** `onChange` is given an awareness update to pass on to everybody. */
  constructor(clientLimit: number, onChange: (update: Uint8Array) => void) {
    this.#clientLimit = clientLimit;
    // The server is nobody's cursor.
    this.#awareness.setLocalState(null);
    this.#awareness.on("update", ({ added, updated, removed }: Change, origin: unknown) => {
      for (const client of [...added, ...updated]) this.#note(client, origin as Peer);
      onChange(encodeAwarenessUpdate(this.#awareness, [...added, ...updated, ...removed]));
    });
  }

  /** Takes in an awareness update; gives the reason where it can't be read or asks for too much. */
  receive(peer: Peer, update: Uint8Array): string | null {
    const mentions = readMentions(update);
    if (!mentions) return "the awareness update is malformed";
    // A page takes others off its list when they have been silent, and says so; that is for their own connection to say.
    const isForeign = mentions.some(({ client, isGone }) => isGone && !this.#speakers.get(client)?.has(peer));
    if (isForeign) return null;
    applyAwarenessUpdate(this.#awareness, update, peer);
    const count = this.#spokenBy.get(peer)?.size ?? 0;
    return count > this.#clientLimit ? `one connection may show ${this.#clientLimit} awareness clients` : null;
  }

  /** Takes away what only this connection has shown. */
  leave(peer: Peer): void {
    const clients = [...(this.#spokenBy.get(peer) ?? [])];
    for (const client of clients) this.#speakers.get(client)?.delete(peer);
    const silent = clients.filter((client) => this.#speakers.get(client)?.size === 0);
    for (const client of silent) this.#speakers.delete(client);
    this.#spokenBy.delete(peer);
    removeAwarenessStates(this.#awareness, silent, peer);
    this.#forgetGone();
  }

  /** Everybody, as an awareness update. */
  encode(): Uint8Array {
    return encodeAwarenessUpdate(this.#awareness, [...this.#awareness.getStates().keys()]);
  }

  #note(client: number, peer: Peer): void {
    this.#speakers.set(client, (this.#speakers.get(client) ?? new Set()).add(peer));
    this.#spokenBy.set(peer, (this.#spokenBy.get(peer) ?? new Set()).add(client));
  }

  #forgetGone(): void {
    const { meta, states } = this.#awareness;
    if (meta.size - states.size <= GONE_LIMIT) return;
    for (const client of [...meta.keys()]) if (!states.has(client)) meta.delete(client);
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
