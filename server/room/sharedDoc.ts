import * as Y from "yjs";
import { type Board, readBoard, thinBoard, titleOf, writeThinBoard } from "../../shared/board";
import { countWhile } from "../../shared/quantity";

/** What became of an update that a client sent. */
export type Applied =
  /** `update` is what was new in it, null where nothing was. */
  | { readonly outcome: "applied"; readonly update: Uint8Array | null }
  /** It builds on changes that are not here: ask the sender for all of them. */
  | { readonly outcome: "incomplete" }
  | { readonly outcome: "refused"; readonly reason: string };

/** A thin document is worth keeping where it is at most this part of the whole one. */
const MOST_OF_WHOLE = 0.5;

/**
 * The server's copy of a room's Yjs document, safe against any bytes. Yjs changes a document half way when an update
 * turns out to be broken, and can be left with a document that it can't write any more. So an update is read and checked
 * first, and where applying it fails all the same, the document is built anew from the updates taken so far, which are
 * kept beside it for that.
 */
export class SharedDoc {
  readonly #structLimit: number;
  #doc: Y.Doc;
  /** Updates that make up the document, as they went into the history. */
  #journal: Uint8Array[];
  #journalBytes: number;

  /** `updates` are a room's snapshot and entries as they were stored; those that Yjs can't read are left out. */
  constructor(updates: readonly Uint8Array[], structLimit: number) {
    const { doc, kept } = replay(updates);
    this.#structLimit = structLimit;
    this.#doc = doc;
    this.#journal = kept;
    this.#journalBytes = totalLength(kept);
  }

  /** Upper bound for the length of the document as one update. */
  get size(): number {
    return this.#journalBytes;
  }

  /** Title of the board. */
  get title(): string {
    return titleOf(this.#doc);
  }

  get board(): Board {
    return readBoard(this.#doc);
  }

  /** What an act would change, as one update. The document itself stays as it is. */
  updateOf(act: (copy: Y.Doc) => void): Uint8Array {
    const copy = new Y.Doc();
    try {
      Y.applyUpdate(copy, this.encode());
      const before = Y.encodeStateVector(copy);
      act(copy);
      return Y.encodeStateAsUpdate(copy, before);
    } finally {
      copy.destroy();
    }
  }

  apply(update: Uint8Array): Applied {
    const fault = this.#fault(update);
    if (fault) return fault;
    const news: Uint8Array[] = [];
    const listen = (bytes: Uint8Array) => news.push(bytes);
    this.#doc.on("update", listen);
    try {
      Y.applyUpdate(this.#doc, update);
      if (this.#doc.store.pendingStructs ?? this.#doc.store.pendingDs) throw new Error("it refers to what it lacks");
    } catch (error) {
      this.#doc.destroy();
      this.#doc = replay(this.#journal).doc;
      return { outcome: "refused", reason: `the update can't be applied: ${messageOf(error)}` };
    } finally {
      this.#doc.off("update", listen);
    }
    if (news.length === 0) return { outcome: "applied", update: null };
    const merged = news.length === 1 ? (news[0] as Uint8Array) : Y.mergeUpdates(news);
    this.#journal.push(merged);
    this.#journalBytes += merged.length;
    return { outcome: "applied", update: merged };
  }

  /** Whether an update holds anything that isn't here; null where it can't be read. Changes nothing. */
  hasNews(update: Uint8Array): boolean | null {
    try {
      const { structs, ds } = Y.decodeUpdate(update);
      const { store } = this.#doc;
      const isKnown = ({ id, length }: (typeof structs)[number]) => id.clock + length <= Y.getState(store, id.client);
      if (!structs.every((struct) => struct instanceof Y.Skip || isKnown(struct))) return true;
      // A client that has nothing new still tells all that was ever deleted.
      return ds.clients.size > 0 && !isCovered(ds, Y.createDeleteSetFromStructStore(store));
    } catch {
      return null;
    }
  }

  /** All of the document as one update. */
  encode(): Uint8Array {
    return Y.encodeStateAsUpdate(this.#doc);
  }

  /** What a peer with that state vector lacks; null where the vector can't be read. */
  encodeSince(stateVector: Uint8Array): Uint8Array | null {
    try {
      return Y.encodeStateAsUpdate(this.#doc, stateVector);
    } catch {
      return null;
    }
  }

  stateVector(): Uint8Array {
    return Y.encodeStateVector(this.#doc);
  }

  /** The document as one update that has been read back, which also becomes the journal. Null where it can't be read back. */
  compact(): Uint8Array | null {
    try {
      const bytes = this.encode();
      const copy = new Y.Doc();
      Y.applyUpdate(copy, bytes);
      copy.destroy();
      this.#journal = [bytes];
      this.#journalBytes = bytes.length;
      return bytes;
    } catch {
      return null;
    }
  }

  /** The document without its past, for replays; null where there is little past, or something that can't do without it. */
  thin(): Uint8Array | null {
    const thin = thinBoard(this.#doc);
    const bytes = thin && writeThinBoard(thin);
    return bytes && bytes.length <= MOST_OF_WHOLE * this.#journalBytes ? bytes : null;
  }

  destroy(): void {
    this.#doc.destroy();
  }

  /** Why the update must not be applied; null where all that it builds on is here. */
  #fault(update: Uint8Array): Exclude<Applied, { outcome: "applied" }> | null {
    try {
      const { structs, ds } = Y.decodeUpdate(update);
      if (structs.length > this.#structLimit) {
        return {
          outcome: "refused",
          reason: `an update may hold ${this.#structLimit} items, this one has ${structs.length}`,
        };
      }
      return isComplete(structs, ds, (client) => Y.getState(this.#doc.store, client))
        ? null
        : { outcome: "incomplete" };
    } catch (error) {
      return { outcome: "refused", reason: `the update can't be read: ${messageOf(error)}` };
    }
  }
}

type Decoded = ReturnType<typeof Y.decodeUpdate>;

/** Whether a document can take the structs in without waiting for others; `seen` is how far it knows a client's clock. */
function isComplete(structs: Decoded["structs"], ds: Decoded["ds"], seen: (client: number) => number): boolean {
  const added = new Map<number, number>();
  const reach = (client: number) => added.get(client) ?? seen(client);
  for (const struct of structs) {
    const { client, clock } = struct.id;
    if (struct instanceof Y.Skip || clock > reach(client)) return false;
    added.set(client, Math.max(reach(client), clock + struct.length));
  }
  const isKnown = (id: unknown) => !(id instanceof Y.ID) || id.clock < reach(id.client);
  const areStructsKnown = structs.every(
    (each) => !(each instanceof Y.Item) || (isKnown(each.origin) && isKnown(each.rightOrigin) && isKnown(each.parent)),
  );
  const areDeletesKnown = [...ds.clients].every(([client, ranges]) =>
    ranges.every(({ clock, len }) => clock + len <= reach(client)),
  );
  return areStructsKnown && areDeletesKnown;
}

/** Whether all that one set deletes is deleted in the other, whose ranges are sorted and as long as can be. */
function isCovered(deleted: Decoded["ds"], known: Decoded["ds"]): boolean {
  return [...deleted.clients].every(([client, ranges]) => {
    const cover = known.clients.get(client) ?? [];
    return ranges.every(({ clock, len }) => {
      const range = lastFrom(cover, clock);
      return range !== undefined && clock + len <= range.clock + range.len;
    });
  });
}

/** The last range that begins at a clock or before it. */
function lastFrom<T extends { readonly clock: number }>(ranges: readonly T[], clock: number): T | undefined {
  return ranges[countWhile(ranges.length, (place) => (ranges[place] as T).clock <= clock) - 1];
}

/** A document of those updates that can be applied; one that can't is left out, and all begun again without it. */
function replay(updates: readonly Uint8Array[]): { doc: Y.Doc; kept: Uint8Array[] } {
  const kept = [...updates];
  for (;;) {
    const doc = new Y.Doc();
    const broken = kept.findIndex((update) => !canApply(doc, update));
    if (broken === -1) return { doc, kept };
    doc.destroy();
    kept.splice(broken, 1);
  }
}

function canApply(doc: Y.Doc, update: Uint8Array): boolean {
  try {
    Y.applyUpdate(doc, update);
    return true;
  } catch {
    return false;
  }
}

function totalLength(updates: readonly Uint8Array[]): number {
  return updates.reduce((sum, update) => sum + update.length, 0);
}

function messageOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
