import * as Y from "yjs";
import { countWhile } from "../quantity";
import { applyQuietly } from "./applyQuietly";

/** One change of a board: the number that its entry has in the room's history, and a Yjs update. */
export type BoardUpdate = { readonly sequence: number; readonly update: Uint8Array };

/** Entries of a history, both ends included. */
export type Range = { readonly from: number; readonly to: number };

type Whole = { readonly sequence: number; readonly board: Uint8Array };

/** Updates after which a board that goes forward keeps itself whole, so that going back there is quick. */
const SPACING = 1000;

/**
 * A board that can be put to any moment of its history, as far as that was given to it: forward by the changes between, back
 * by the nearest whole board before the moment and the changes since. A moment is the sequence of an entry, and takes in all
 * changes up to it; 0 is the empty board. An update that Yjs can't read is passed over, as it is in a room.
 */
export class BoardReplay {
  /** Sorted by sequence. The empty board is always there. */
  readonly #wholes: Whole[] = [{ sequence: 0, board: new Uint8Array() }];
  #updates: BoardUpdate[] = [];
  /** Entries that were given, sorted and apart. */
  #given: Range[] = [];
  #doc = new Y.Doc();
  #at = 0;
  /** Updates that were applied since the last whole board that was kept. */
  #applied = 0;

  /** The document as it is at the moment that was gone to last. Going back makes another one. */
  get doc(): Y.Doc {
    return this.#doc;
  }

  /** The moment that was gone to last. */
  get at(): number {
    return this.#at;
  }

  /** Gives a board as it is right after an entry, as one Yjs update. */
  addBoard(sequence: number, board: Uint8Array): void {
    const index = placeOf(this.#wholes, sequence);
    if (this.#wholes[index - 1]?.sequence !== sequence) this.#wholes.splice(index, 0, { sequence, board });
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
    const start = Math.max(this.#startOf(at).sequence, this.#at <= at ? this.#at : 0);
    const own = this.#given.find(({ from, to }) => from <= start + 1 && to > start);
    const next = own ? own.to + 1 : start + 1;
    const end = this.#given.find(({ from }) => from > next)?.from ?? Number.POSITIVE_INFINITY;
    return next > at ? null : { from: next, to: Math.min(at, end - 1) };
  }

  /** Puts the board to a moment. Throws where entries are missing before it. */
  goTo(at: number): Y.Doc {
    const missing = this.missing(at);
    if (missing) throw new RangeError(`entries ${missing.from} to ${missing.to} are missing before ${at}`);
    const start = this.#startOf(at);
    // Between where it stands and a whole board on the way, entries need not be there.
    if (at < this.#at || start.sequence > this.#at) this.#beginAt(start);
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

  /** The board at the moment that was gone to last, whole, as one Yjs update. */
  encode(): Uint8Array {
    return Y.encodeStateAsUpdate(this.#doc);
  }

  destroy(): void {
    this.#doc.destroy();
  }

  #startOf(at: number): Whole {
    return this.#wholes[placeOf(this.#wholes, at) - 1] as Whole;
  }

  #beginAt({ sequence, board }: Whole): void {
    this.#doc.destroy();
    // A stored board has nothing left to be collected, and looking for it would take an eighth of the time that it loads in.
    this.#doc = new Y.Doc({ gc: false });
    if (board.length > 0) applyQuietly(this.#doc, board);
    this.#doc.gc = true;
    this.#at = sequence;
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
    this.addBoard(sequence, Y.encodeStateAsUpdate(this.#doc));
    this.#applied = 0;
  }
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
