import {
  type Board,
  type BoardCircuit,
  BoardReplay,
  circuitOf,
  EMPTY_BOARD,
  type Ink,
  NO_INK,
  observeBoard,
  observeInk,
  readBoard,
  readInk,
} from "../../shared/board";
import { afterEvent, BEGINNING, type Chunk, type Moment, type ReplayEvent, readEvent } from "../../shared/replay";
import type { Refusal } from "../access";
import { PointerTracks } from "./pointerTracks";
import type { ReplaySource } from "./replayApi";

/** Where the entries and boards come from. */
export type SessionSource = Pick<ReplaySource, "entries" | "board">;

/** A room as it was right after an entry of its history. */
export type ShownRoom = {
  readonly moment: Moment;
  readonly board: Board;
  readonly circuit: BoardCircuit;
  readonly ink: Ink;
};

export const EMPTY_ROOM: ShownRoom = {
  moment: BEGINNING,
  board: EMPTY_BOARD,
  circuit: circuitOf(EMPTY_BOARD),
  ink: NO_INK,
};

/** More entries than this between a known board and a moment are not fetched one by one: a stored board comes first. */
const FAR = 400;
/** Entries that are passed before the moment is kept, so that going back there is quick. */
const SPACING = 400;

/**
 * What a page knows of a room's history: entries as far as they were fetched, and the room as it was at any of them. Goes
 * forward by the entries between, back from the nearest board that is known.
 */
export class SessionLog {
  readonly pointers = new PointerTracks();
  readonly #source: SessionSource;
  readonly #events: (ReplayEvent | undefined)[] = [];
  readonly #boards = new BoardReplay();
  /** Moments that were passed or fetched whole, by sequence; the beginning is always there. */
  readonly #moments = new Map<number, Moment>([[0, BEGINNING]]);
  #shown: ShownRoom = EMPTY_ROOM;
  #stopWatching: () => void = () => {};
  #watched: unknown = null;

  constructor(source: SessionSource) {
    this.#source = source;
  }

  /** The event of an entry; null where it was not fetched. */
  event(sequence: number): ReplayEvent | null {
    return this.#events[sequence] ?? null;
  }

  isLoaded(at: number): boolean {
    return this.#boards.missing(at) === null && this.#startOf(at) !== null;
  }

  /** Fetches what is missing before a moment. Null where all went well. */
  async load(at: number): Promise<Refusal | null> {
    /** With which thin board as unfit the nearest one was asked for; undefined before. */
    let asked: number | null | undefined;
    for (let missing = this.#missing(at); missing; missing = this.#missing(at)) {
      const unfit = this.#boards.unfitBefore(at);
      const isAskedFor: boolean = asked !== undefined && (unfit === null || unfit === asked);
      const isFar = at - missing.from >= FAR && !isAskedFor;
      const refusal: Refusal | null = isFar
        ? await this.#fetchBoard(at, unfit)
        : await this.#fetchEntries(missing.from, missing.to);
      if (refusal) return refusal;
      if (isFar) asked = unfit;
    }
    return null;
  }

  /** Fetches the entries between two moments, both included, as far as they are not there. */
  async loadEntries(from: number, to: number): Promise<Refusal | null> {
    for (let at = this.#firstUnknown(from, to); at !== null; at = this.#firstUnknown(at, to)) {
      const refusal = await this.#fetchEntries(at, to);
      if (refusal) return refusal;
    }
    return null;
  }

  /** The room at a moment. Throws where that is not loaded. */
  goTo(at: number): ShownRoom {
    const start = this.#startOf(at);
    if (!start) throw new RangeError(`the moment of entry ${at} is not loaded`);
    const doc = this.#boards.goTo(at);
    if (doc !== this.#watched) {
      this.#stopWatching();
      this.#watched = doc;
      const board = readBoard(doc);
      this.#shown = { ...this.#shown, board, circuit: circuitOf(board), ink: readInk(doc) };
      const stops = [
        observeBoard(doc, (now) => {
          this.#shown = { ...this.#shown, board: now, circuit: circuitOf(now) };
        }),
        observeInk(doc, (ink) => {
          this.#shown = { ...this.#shown, ink };
        }),
      ];
      this.#stopWatching = () => {
        for (const stop of stops) stop();
      };
    }
    this.#shown = { ...this.#shown, moment: this.#momentAfter(start, at) };
    return this.#shown;
  }

  close(): void {
    this.#stopWatching();
    this.#boards.destroy();
  }

  #missing(at: number): { readonly from: number; readonly to: number } | null {
    const missing = this.#boards.missing(at);
    if (missing) return missing;
    return this.#startOf(at) ? null : { from: 1, to: at };
  }

  async #fetchBoard(at: number, unfit: number | null): Promise<Refusal | null> {
    const answer = await this.#source.board(at, unfit);
    if (!answer.ok) return answer.refusal;
    const { moment, board, isThin } = answer.value;
    this.#boards.addBoard(moment.sequence, board, isThin);
    this.#moments.set(moment.sequence, moment);
    return null;
  }

  async #fetchEntries(from: number, to: number): Promise<Refusal | null> {
    const answer = await this.#source.entries(from, to);
    if (!answer.ok) return answer.refusal;
    return this.#take(answer.value, from) ? null : EMPTY_CHUNK;
  }

  /** False where the chunk does not begin with the entry that was asked for. */
  #take({ entries }: Chunk, from: number): boolean {
    const last = entries.at(-1);
    if (!last || entries[0]?.sequence !== from) return false;
    const events = entries.map(readEvent);
    for (const event of events) {
      if (this.#events[event.sequence]) continue;
      this.#events[event.sequence] = event;
      if (event.kind === "pointers") this.pointers.add(event);
    }
    const updates = events.flatMap((event) => (event.kind === "update" ? [event] : []));
    this.#boards.addUpdates({ from, to: last.sequence }, updates);
    return true;
  }

  #firstUnknown(from: number, to: number): number | null {
    for (let at = Math.max(1, from); at <= to; at++) if (!this.#events[at]) return at;
    return null;
  }

  /** The nearest known moment from which all entries up to `at` are known; null where there is none. */
  #startOf(at: number): Moment | null {
    const current = this.#shown.moment;
    for (let sequence = at; ; sequence--) {
      const known = sequence === current.sequence ? current : this.#moments.get(sequence);
      if (known) return known;
      // The beginning is always known, so this ends.
      if (!this.#events[sequence]) return null;
    }
  }

  #momentAfter(start: Moment, at: number): Moment {
    let moment = start;
    for (let sequence = start.sequence + 1; sequence <= at; sequence++) {
      const event = this.#events[sequence];
      if (event) moment = afterEvent(moment, event);
      if (sequence % SPACING === 0) this.#moments.set(sequence, moment);
    }
    return moment;
  }
}

const EMPTY_CHUNK: Refusal = {
  code: "unavailable",
  text: "The server did not send the part of the session that was asked for. Try again in a moment.",
};
