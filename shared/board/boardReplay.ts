import * as Y from "yjs";
import { countWhile } from "../quantity";
import { applyQuietly } from "./applyQuietly";
import { type ReadThinBoard, readThinBoard, type ThinPast } from "./thinBoard";

/** One change of a board: the number that its entry has in the room's history, and a Yjs update. */
export type BoardUpdate = { readonly sequence: number; readonly update: Uint8Array };

/** Entries of a history, both ends included. */
export type Range = { readonly from: number; readonly to: number };

/** A board that was given or kept, as one Yjs update; `thin` is what it began from where that was a thin board. */
type Stored = { readonly sequence: number; readonly board: Uint8Array; readonly thin: Thin | null };

/** A thin board, and how far the changes after it are known to do without what is gone from it. */
type Thin = {
  readonly sequence: number;
  /** What is gone from it; null where it could not be read. */
  readonly past: ThinPast | null;
  /** Up to this entry they do. */
  checkedTo: number;
  /** This entry does not, nor what follows; beyond all where none is known. */
  unfitFrom: number;
};

/** Updates after which a board that goes forward keeps itself, so that going back there is quick. */
const SPACING = 1000;

/**
 * A board that can be put to any moment of its history, as far as that was given to it: forward by the changes between, back
 * by the nearest stored board before the moment and the changes since. A moment is the sequence of an entry, and takes in all
 * changes up to it; 0 is the empty board. An update that Yjs can't read is passed over, as it is in a room. A thin board
 * serves until a change refers to what is gone from it: from there on an earlier board or a whole one takes its place.
 */
export class BoardReplay {
  /** Sorted by sequence. The empty board is always there. */
  readonly #stored: Stored[] = [{ sequence: 0, board: new Uint8Array(), thin: null }];
  #updates: BoardUpdate[] = [];
  /** Entries that were given, sorted and apart. */
  #given: Range[] = [];
  #doc = new Y.Doc();
  #at = 0;
  /** The thin board that the document began from. */
  #thin: Thin | null = null;
  /** Updates that were applied since the last board that was kept. */
  #applied = 0;

  /** The document as it is at the moment that was gone to last. Going back makes another one. */
  get doc(): Y.Doc {
    return this.#doc;
  }

  /** The moment that was gone to last. */
  get at(): number {
    return this.#at;
  }

  /**
   * Gives a board as it is right after an entry: as one Yjs update, which takes the place of a thin one of that entry; or thin,
   * as `writeThinBoard` writes it. One that can't be read serves for no moment.
   */
  addBoard(sequence: number, board: Uint8Array, isThin = false): void {
    if (isThin) this.#add(storedThin(sequence, readThinBoard(board)));
    else this.#add({ sequence, board, thin: null });
  }

  /**
   * The entry of the last thin board from which a moment can't be reached, null where there is none: that board is to be
   * asked for whole, unless there is one nearer to the moment.
   */
  unfitBefore(at: number): number | null {
    const unfit = this.#stored.findLast(
      ({ sequence, thin }) => sequence <= at && thin !== null && thin.unfitFrom <= at,
    );
    return unfit?.thin?.sequence ?? null;
  }

  /** Gives the changes among all entries of a range. Those that are known already are passed over. */
  addUpdates(range: Range, updates: readonly BoardUpdate[]): void {
    const isKnown = (sequence: number) => this.#given.some(({ from, to }) => from <= sequence && sequence <= to);
    const news = updates.filter(({ sequence }) => !isKnown(sequence));
    const last = this.#updates.at(-1)?.sequence ?? 0;
    const isBehind = news.every(({ sequence }) => sequence > last);
    if (isBehind) for (const each of news) this.#updates.push(each);
    else this.#updates = [...this.#updates, ...news].sort((a, b) => a.sequence - b.sequence);
    this.#given = joined([...this.#given, range]);
  }

  /** The first entries that have to be given before the board can be put to a moment; null where all are there. */
  missing(at: number): Range | null {
    for (;;) {
      const start = this.#beginningOf(at);
      const missing = this.#missingBetween(start.sequence, at);
      if (missing || this.#isFit(start.thin, at)) return missing;
    }
  }

  /** Puts the board to a moment. Throws where entries are missing before it. */
  goTo(at: number): Y.Doc {
    const missing = this.missing(at);
    if (missing) throw new RangeError(`entries ${missing.from} to ${missing.to} are missing before ${at}`);
    const start = this.#startOf(at);
    // Between where it stands and a stored board on the way, entries need not be there.
    if (!this.#goesOnTo(at) || start.sequence > this.#at) this.#beginAt(start);
    const between = this.#updates.slice(placeOf(this.#updates, this.#at), placeOf(this.#updates, at));
    for (let done = 0; done < between.length; ) {
      const part = between.slice(done, done + SPACING - this.#applied);
      this.#apply(part);
      done += part.length;
      if (this.#applied >= SPACING) this.#keep(part.at(-1)?.sequence ?? this.#at);
    }
    this.#at = at;
    return this.#doc;
  }

  /** The board at the moment that was gone to last, as one Yjs update. */
  encode(): Uint8Array {
    return Y.encodeStateAsUpdate(this.#doc);
  }

  destroy(): void {
    this.#doc.destroy();
  }

  /** Where the board begins on its way to a moment: where it stands, or at a stored board. */
  #beginningOf(at: number): { readonly sequence: number; readonly thin: Thin | null } {
    const start = this.#startOf(at);
    return this.#goesOnTo(at) && this.#at >= start.sequence ? { sequence: this.#at, thin: this.#thin } : start;
  }

  #goesOnTo(at: number): boolean {
    return this.#at <= at && (this.#thin === null || at < this.#thin.unfitFrom);
  }

  /** The nearest stored board from which a moment can be reached, as far as is known. */
  #startOf(at: number): Stored {
    const before = this.#stored.slice(0, placeOf(this.#stored, at));
    return before.findLast(({ thin }) => thin === null || at < thin.unfitFrom) as Stored;
  }

  #missingBetween(start: number, at: number): Range | null {
    const own = this.#given.find(({ from, to }) => from <= start + 1 && to > start);
    const next = own ? own.to + 1 : start + 1;
    const end = this.#given.find(({ from }) => from > next)?.from ?? Number.POSITIVE_INFINITY;
    return next > at ? null : { from: next, to: Math.min(at, end - 1) };
  }

  /** Whether all changes up to a moment, which are there, do without what is gone from a thin board. */
  #isFit(thin: Thin | null, at: number): boolean {
    if (thin === null || at <= thin.checkedTo) return true;
    const after = this.#updates.slice(placeOf(this.#updates, thin.checkedTo), placeOf(this.#updates, at));
    const reaching = after.find(({ update }) => thin.past?.isReachedBy(update));
    thin.checkedTo = reaching ? reaching.sequence - 1 : at;
    if (reaching) thin.unfitFrom = reaching.sequence;
    return !reaching;
  }

  #add(stored: Stored): void {
    const index = placeOf(this.#stored, stored.sequence);
    const there = this.#stored[index - 1];
    if (there?.sequence !== stored.sequence) this.#stored.splice(index, 0, stored);
    else if (there.thin !== null && stored.thin === null) this.#stored[index - 1] = stored;
  }

  #beginAt({ sequence, board, thin }: Stored): void {
    this.#doc.destroy();
    // A stored board has nothing left to be collected, and looking for it would take an eighth of the time that it loads in.
    this.#doc = new Y.Doc({ gc: false });
    if (board.length > 0) applyQuietly(this.#doc, board);
    this.#doc.gc = true;
    this.#at = sequence;
    this.#thin = thin;
    this.#applied = 0;
  }

  /** In one transaction, so that whoever observes the document is told once. */
  #apply(updates: readonly BoardUpdate[]): void {
    this.#doc.transact(() => {
      for (const { update } of updates) applyQuietly(this.#doc, update);
    });
    this.#applied += updates.length;
  }

  #keep(sequence: number): void {
    this.#add({ sequence, board: Y.encodeStateAsUpdate(this.#doc), thin: this.#thin });
    this.#applied = 0;
  }
}

function storedThin(sequence: number, board: ReadThinBoard | null): Stored {
  const thin = {
    sequence,
    past: board?.past ?? null,
    checkedTo: sequence,
    unfitFrom: board ? Number.POSITIVE_INFINITY : sequence,
  };
  return { sequence, board: board?.update ?? new Uint8Array(), thin };
}

/** How many of a sorted list come at a sequence or before it. */
function placeOf(sorted: readonly { readonly sequence: number }[], sequence: number): number {
  return countWhile(sorted.length, (place) => (sorted[place] as { readonly sequence: number }).sequence <= sequence);
}

function joined(ranges: readonly Range[]): Range[] {
  const result: Range[] = [];
  for (const range of [...ranges].sort((a, b) => a.from - b.from)) {
    const last = result.at(-1);
    if (last && range.from <= last.to + 1) {
      result[result.length - 1] = { from: last.from, to: Math.max(last.to, range.to) };
    } else result.push(range);
  }
  return result;
}
