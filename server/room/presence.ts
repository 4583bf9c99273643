import * as decoding from "lib0/decoding";
import * as encoding from "lib0/encoding";
import { Awareness, applyAwarenessUpdate, encodeAwarenessUpdate, removeAwarenessStates } from "y-protocols/awareness";
import * as Y from "yjs";
import type { You } from "../../shared/messages";
import type { Limits } from "../limits";
import { CLOSE } from "../sync/closeCode";
import type { Peer } from "./peer";

type State = { readonly [field: string]: unknown };
/** What an update says of an awareness client; a `state` of null says that it is gone. */
type Mention = { readonly client: number; readonly clock: number; readonly state: State | null };
type PresenceLimits = Pick<Limits, "awarenessBytes" | "awarenessClients">;
type Change = { readonly added: number[]; readonly updated: number[]; readonly removed: number[] };

/** Entries of clients that are gone are kept, so that late echoes of them are known as such; above this they are dropped. */
const GONE_LIMIT = 1000;

/**
 * Who is in a room and what their pages show of themselves (y-protocols' awareness). A stock client sends back whatever
 * it is sent, so a state counts as a connection's own only where it was news. An awareness client is spoken for by the
 * connections that brought such news: its own, perhaps one that it lost and came back from, perhaps those of other tabs of
 * the same browser. Only they can take it away, and it goes with the last of them.
 *
 * It belongs to the participant who brought it first, also while they are away: what others say of it is dropped. Each
 * state says in `who` whose it is; the server writes that itself, over whatever a page wrote there.
 */
export class Presence {
  readonly #awareness = new Awareness(new Y.Doc());
  readonly #speakers = new Map<number, Set<Peer>>();
  readonly #limits: PresenceLimits;
  readonly #onShown: (participant: string, state: State | null) => void;
  readonly #spokenBy = new Map<Peer, Set<number>>();
  /** Participant that each awareness client belongs to. */
  readonly #owners = new Map<number, string>();

  /** `onChange` is given an awareness update to pass on to everybody, `onShown` what a participant's page shows now. */
  constructor(
    limits: PresenceLimits,
    onChange: (update: Uint8Array) => void,
    onShown: (participant: string, state: State | null) => void,
  ) {
    this.#limits = limits;
    this.#onShown = onShown;
    // The server is nobody's cursor.
    this.#awareness.setLocalState(null);
    this.#awareness.on("update", ({ added, updated, removed }: Change, origin: unknown) => {
      for (const client of [...added, ...updated]) this.#note(client, origin as Peer);
      onChange(encodeAwarenessUpdate(this.#awareness, [...added, ...updated, ...removed]));
    });
  }

  /** Takes in an awareness update. One that can't be read or asks for too much ends its sender's connection. */
  receive(peer: Peer, update: Uint8Array, who: You | null): void {
    const { awarenessBytes } = this.#limits;
    if (update.length > awarenessBytes) {
      peer.close(CLOSE.tooLarge, `an awareness update has at most ${awarenessBytes} bytes, not ${update.length}`);
      return;
    }
    const problem = this.#take(peer, update, who);
    if (problem !== null) peer.close(CLOSE.badMessage, problem);
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

  /** Gives the reason where an update can't be read or speaks for too many. */
  #take(peer: Peer, update: Uint8Array, who: You | null): string | null {
    const mentions = readMentions(update);
    if (!mentions) return "the awareness update is malformed";
    const own = mentions.filter((mention) => this.#isOwn(peer, mention));
    if (own.length === 0) return null;
    applyAwarenessUpdate(this.#awareness, writeMentions(own, who), peer);
    for (const { state } of own) this.#onShown(peer.participant, state);
    const { awarenessClients } = this.#limits;
    const count = this.#spokenBy.get(peer)?.size ?? 0;
    return count > awarenessClients ? `one connection may show ${awarenessClients} awareness clients` : null;
  }

  #isOwn(peer: Peer, { client, state }: Mention): boolean {
    // A page takes others off its list when they have been silent, and says so; that is for their own connection to say.
    if (state === null) return this.#speakers.get(client)?.has(peer) === true;
    const owner = this.#owners.get(client);
    return owner === undefined || owner === peer.participant;
  }

  #note(client: number, peer: Peer): void {
    this.#owners.set(client, peer.participant);
    this.#speakers.set(client, (this.#speakers.get(client) ?? new Set()).add(peer));
    this.#spokenBy.set(peer, (this.#spokenBy.get(peer) ?? new Set()).add(client));
  }

  #forgetGone(): void {
    const { meta, states } = this.#awareness;
    if (meta.size - states.size <= GONE_LIMIT) return;
    for (const client of [...meta.keys()]) {
      if (states.has(client)) continue;
      meta.delete(client);
      this.#owners.delete(client);
    }
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
      const clock = decoding.readVarUint(decoder);
      const state: unknown = JSON.parse(decoding.readVarString(decoder));
      if (typeof state !== "object" || Array.isArray(state)) return null;
      mentions.push({ client, clock, state: state as State | null });
    }
    return decoder.pos === update.length ? mentions : null;
  } catch {
    return null;
  }
}

function writeMentions(mentions: readonly Mention[], who: You | null): Uint8Array {
  const encoder = encoding.createEncoder();
  encoding.writeVarUint(encoder, mentions.length);
  for (const { client, clock, state } of mentions) {
    encoding.writeVarUint(encoder, client);
    encoding.writeVarUint(encoder, clock);
    encoding.writeVarString(encoder, JSON.stringify(state && { ...state, who }));
  }
  return encoding.toUint8Array(encoder);
}
