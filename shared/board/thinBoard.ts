import * as decoding from "lib0/decoding";
import * as encoding from "lib0/encoding";
import * as Y from "yjs";
import { countWhile } from "../quantity";

/**
 * A board without its past. Yjs keeps a struct for each value that a field ever had, so that a board on which much was
 * moved has some fifty of these for each that counts, and takes most of its time to load for them. Here the fields have
 * their last values alone, and all that is gone between them is told by its length.
 *
 * A change goes on from it as it would from the whole board, unless it refers to something that is gone: its author had
 * not seen the newest value of a field, or takes back a deletion. {@link ThinPast} tells such changes, which need the
 * whole board.
 */
export type ThinBoard = {
  /** The board as one Yjs update. */
  readonly update: Uint8Array;
  /** Hashes of the keys of entries that are gone from the board's maps. */
  readonly gone: ReadonlySet<number>;
};

const FORMAT = 1;

/**
 * The document of a board without its past; null where it has what can't be thinned: anything but maps, or a value that was
 * put before another one. No board of ours has such.
 */
export function thinBoard(doc: Y.Doc): ThinBoard | null {
  const encoder = new Y.UpdateEncoderV1();
  const gone = new Set<number>();
  const clients = [...doc.store.clients].sort(([a], [b]) => b - a);
  encoding.writeVarUint(encoder.restEncoder, clients.length);
  for (const [client, structs] of clients) {
    const thin = thinned(structs, gone);
    if (thin === null) return null;
    encoding.writeVarUint(encoder.restEncoder, thin.length);
    encoder.writeClient(client);
    encoding.writeVarUint(encoder.restEncoder, 0);
    for (const struct of thin) struct.write(encoder, 0);
  }
  // What is gone says so by itself: nothing else is deleted.
  encoding.writeVarUint(encoder.restEncoder, 0);
  return { update: encoder.toUint8Array(), gone };
}

/** `thin board = varUint(1) • varBytes(update) • varUint(hashes) • hash*`, a hash in four bytes. */
export function writeThinBoard({ update, gone }: ThinBoard): Uint8Array {
  const encoder = encoding.createEncoder();
  encoding.writeVarUint(encoder, FORMAT);
  encoding.writeVarUint8Array(encoder, update);
  encoding.writeVarUint(encoder, gone.size);
  for (const hash of gone) encoding.writeUint32(encoder, hash);
  return encoding.toUint8Array(encoder);
}

/** A thin board that was read, and what tells whether it does. */
export type ReadThinBoard = { readonly update: Uint8Array; readonly past: ThinPast };

/** Reads what {@link writeThinBoard} writes; null for anything else. Never throws. */
export function readThinBoard(bytes: Uint8Array): ReadThinBoard | null {
  try {
    const decoder = decoding.createDecoder(bytes);
    if (decoding.readVarUint(decoder) !== FORMAT) return null;
    const update = decoding.readVarUint8Array(decoder);
    const count = decoding.readVarUint(decoder);
    const gone = new Set<number>();
    for (let index = 0; index < count; index++) gone.add(decoding.readUint32(decoder));
    return decoder.pos === bytes.length ? { update, past: new ThinPast({ update, gone }) } : null;
  } catch {
    return null;
  }
}

type Struct = Y.Item | Y.GC;

function thinned(structs: readonly Struct[], gone: Set<number>): readonly Struct[] | null {
  const thin: Struct[] = [];
  let from = 0;
  let length = 0;
  const writeGone = () => {
    const [first] = structs;
    if (length > 0 && first) thin.push(new Y.GC(Y.createID(first.id.client, from), length));
    length = 0;
  };
  for (const struct of structs) {
    const kept = struct instanceof Y.Item ? keptOf(struct, gone) : null;
    if (kept === "can't be thinned") return null;
    if (kept === null) {
      if (length === 0) from = struct.id.clock;
      length += struct.length;
    } else {
      writeGone();
      thin.push(kept);
    }
  }
  writeGone();
  return thin;
}

/** What is kept of an item, as the first value of its field; null where it is gone. */
function keptOf(item: Y.Item, gone: Set<number>): Y.Item | null | "can't be thinned" {
  const { id, parent, parentSub, content, deleted } = item;
  if (parentSub === null || !isType(parent)) return deleted && parent === null ? null : "can't be thinned";
  if (item.right !== null) return deleted ? null : "can't be thinned";
  if (deleted) {
    // An entry that is gone is one of many; a field that is gone from an entry that is not, one of few.
    if (parent._item === null) gone.add(hashOf(parentSub));
    if (parent._item === null || parent._item.deleted) return null;
  }
  const value = deleted ? new Y.ContentDeleted(item.length) : content;
  return new Y.Item(id, null, null, null, null, parent, parentSub, value);
}

function isType(parent: unknown): parent is Y.AbstractType<unknown> {
  return parent instanceof Y.AbstractType;
}

/** What is left out of a thin board, and which changes refer to it. */
export class ThinPast {
  readonly #gone: ReadonlySet<number>;
  /** For each client the stretches of its clock that are gone, and where they end. */
  readonly #stretches = new Map<number, { readonly from: number; readonly to: number }[]>();
  readonly #states = new Map<number, number>();
  /** Fields that have a value. */
  readonly #fields = new Set<string>();

  constructor({ update, gone }: ThinBoard) {
    this.#gone = gone;
    for (const struct of Y.decodeUpdate(update).structs) {
      const { client, clock } = struct.id;
      const to = clock + struct.length;
      this.#states.set(client, to);
      if (struct instanceof Y.Item) this.#fields.add(fieldOf(struct));
      else this.#stretchesOf(client).push({ from: clock, to });
    }
  }

  /** Whether a change made after the board refers to something that is gone from it, or may do so. False for what can't be read. */
  isReachedBy(update: Uint8Array): boolean {
    try {
      return Y.decodeUpdate(update).structs.some((struct) => struct instanceof Y.Item && this.#isReachedBy(struct));
    } catch {
      return false;
    }
  }

  #isReachedBy(item: Y.Item): boolean {
    const { origin, rightOrigin, parentSub } = item;
    if (item.id.clock + item.length <= (this.#states.get(item.id.client) ?? 0)) return false;
    if (this.#isGone(origin) || this.#isGone(rightOrigin)) return true;
    // A value whose author saw none before it: where there is one, or was, it is the past that says which of them counts.
    const isFirst = origin === null && rightOrigin === null && parentSub !== null;
    return isFirst && (this.#gone.has(hashOf(parentSub)) || this.#fields.has(fieldOf(item)));
  }

  #isGone(id: Y.ID | null): boolean {
    if (id === null) return false;
    const stretches = this.#stretches.get(id.client) ?? [];
    const next = stretches[countWhile(stretches.length, (place) => (stretches[place]?.to ?? 0) <= id.clock)];
    return next !== undefined && next.from <= id.clock;
  }

  #stretchesOf(client: number): { readonly from: number; readonly to: number }[] {
    const stretches = this.#stretches.get(client) ?? [];
    this.#stretches.set(client, stretches);
    return stretches;
  }
}

/** A field of a map, of an item that was read and has no origin: then it says what it is in. */
function fieldOf({ parent, parentSub }: Y.Item): string {
  const map = parent instanceof Y.ID ? `${parent.client} ${parent.clock}` : String(parent);
  return `${map}\n${parentSub}`;
}

/** A text as 32 bits (FNV-1a, http://www.isthe.com/chongo/tech/comp/fnv/). */
function hashOf(text: string): number {
  let hash = 0x811c9dc5;
  for (let index = 0; index < text.length; index++) {
    hash = Math.imul(hash ^ text.charCodeAt(index), 0x01000193);
  }
  return hash >>> 0;
}
