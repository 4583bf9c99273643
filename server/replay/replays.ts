import { BoardReplay } from "../../shared/board";
import { ENTRY, type HistoryStore, type RoomDirectory } from "../history";
import { RoomReplay } from "./roomReplay";

/** How many rooms' histories are kept read at once; a long session takes some megabytes. */
const MOST = 8;

type Kept = { readonly replay: RoomReplay; readonly board: MomentBoard };

/** The rooms that are being played back. Those that were asked for longest ago are forgotten. */
export class Replays {
  readonly #store: HistoryStore;
  readonly #directory: RoomDirectory;
  /** By room, the newest last. */
  readonly #kept = new Map<string, Kept>();

  constructor(store: HistoryStore, directory: RoomDirectory) {
    this.#store = store;
    this.#directory = directory;
  }

  /** A room's replay, up to what is stored by now. Rejects with the store's error. */
  async open(room: string): Promise<RoomReplay> {
    const kept = this.#kept.get(room) ?? (await this.#begin(room));
    this.#kept.delete(room);
    this.#kept.set(room, kept);
    for (const [oldest] of this.#kept) {
      if (this.#kept.size <= MOST) break;
      this.forget(oldest);
    }
    await kept.replay.follow();
    return kept.replay;
  }

  /** A room's board right after an entry, as one Yjs update. */
  async boardAt(room: string, sequence: number): Promise<Uint8Array> {
    await this.open(room);
    const kept = this.#kept.get(room);
    // Forgotten meanwhile, which takes as many others at once as are kept.
    return (kept?.board ?? new MomentBoard(room, this.#store)).at(sequence);
  }

  forget(room: string): void {
    this.#kept.get(room)?.board.forget();
    this.#kept.delete(room);
  }

  async #begin(room: string): Promise<Kept> {
    const listed = await this.#directory.find(room);
    // Of several who open it at once the first has begun.
    const begun = this.#kept.get(room);
    if (begun) return begun;
    return {
      replay: new RoomReplay(room, this.#store, listed?.tryOf != null),
      board: new MomentBoard(room, this.#store),
    };
  }
}

/** A room's board at the moments that are asked for, one after another: from the stored board nearest before each. */
class MomentBoard {
  readonly #room: string;
  readonly #store: HistoryStore;
  /** Entry of the stored board that it began from. */
  #base = -1;
  /** Entry of the thin board that did not do, so that it was read whole. */
  #unfit: number | null = null;
  #replay: BoardReplay | null = null;
  #last: Promise<unknown> = Promise.resolve();

  constructor(room: string, store: HistoryStore) {
    this.#room = room;
    this.#store = store;
  }

  at(sequence: number): Promise<Uint8Array> {
    const board = this.#last.then(() => this.#goTo(sequence));
    // Whatever became of it, the next one has its turn.
    this.#last = board.catch(() => {});
    return board;
  }

  forget(): void {
    this.#replay?.destroy();
    this.#replay = null;
    this.#base = -1;
    this.#unfit = null;
  }

  async #goTo(sequence: number): Promise<Uint8Array> {
    const stored = await this.#store.boardAt(this.#room, sequence, this.#unfit);
    const base = stored?.sequence ?? 0;
    if (!this.#replay || this.#base !== base) {
      this.forget();
      this.#replay = new BoardReplay();
      this.#base = base;
      if (stored) this.#replay.addBoard(base, stored.board, stored.isThin);
    }
    const replay = this.#replay;
    for (let missing = replay.missing(sequence); missing; missing = replay.missing(sequence)) {
      const unfit = replay.unfitBefore(sequence);
      if (unfit !== null && unfit !== this.#unfit) {
        this.#unfit = unfit;
        const whole = await this.#store.boardAt(this.#room, sequence, unfit);
        if (whole) replay.addBoard(whole.sequence, whole.board, whole.isThin);
        continue;
      }
      const entries = await this.#store.read(this.#room, missing.from, missing.to, [ENTRY.update]);
      replay.addUpdates(
        missing,
        entries.map((entry) => ({ sequence: entry.sequence, update: entry.bytes })),
      );
    }
    replay.goTo(sequence);
    return replay.encode();
  }
}
