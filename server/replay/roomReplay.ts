import { withStep, withTry } from "../../shared/messages";
import { countWhile } from "../../shared/quantity";
import {
  afterEvent,
  BEGINNING,
  type Chapter,
  ChapterFinder,
  type EntryHead,
  type Moment,
  type ReplayEntry,
  readEvent,
  type Timeline,
  timelineOf,
} from "../../shared/replay";
import { changed, OPEN_ACCESS, type RoomAccess, TRY_ACCESS } from "../access";
import { type KeptStep, type KeptTry, readHelpEvent, readStep, readTry, withHelp } from "../check";
import { ENTRY, type HistoryEntry, type HistoryStore } from "../history";
import { OF_ACCESS, readChange } from "../room/accessHistory";
import { forReplay, momentFor, settingsOf, type Watching } from "./forViewer";
import { Persons } from "./persons";

/** A room at a moment with what each of those who don't instruct is told, and with what instructors are told besides. */
type Moments = { readonly told: Moment; readonly whole: Moment };

type At<T> = { readonly sequence: number; readonly value: T };

/** Entries whose heads are read at once, so that no room waits long for a replay that is opened. */
const PAGE = 4000;
/** Kinds of which a long session has thousands, and which change nothing of a room but its board. */
export const MANY: readonly string[] = [ENTRY.update, ENTRY.pointers];

/**
 * What is kept of a room's history while it is played back: the heads of all entries, and what the few that are no edits
 * make of the room from moment to moment. It follows the history as that grows.
 */
export class RoomReplay {
  readonly room: string;
  readonly isTry: boolean;
  readonly persons = new Persons();
  readonly #store: HistoryStore;
  readonly #heads: EntryHead[] = [];
  readonly #sizes: number[] = [];
  /** The access after each entry that changed it. */
  readonly #accesses: At<RoomAccess>[];
  /** The room after each entry that is no edit. */
  readonly #moments: At<Moments>[];
  /** The newest tries after each. */
  readonly #tries: At<readonly KeptTry[]>[] = [{ sequence: 0, value: [] }];
  /** The newest zeroings and the lines. */
  readonly #steps: At<readonly KeptStep[]>[] = [{ sequence: 0, value: [] }];
  readonly #chapters = new ChapterFinder();
  /** Sequence at which the first came who doesn't instruct; beyond all where none has. */
  #audience = Number.POSITIVE_INFINITY;
  #chapterEdits = 0;
  #timeline: Timeline | null = null;
  #following: Promise<void> | null = null;

  /** `isTry` says that it is somebody's own try of another room's problem. */
  constructor(room: string, store: HistoryStore, isTry: boolean) {
    const access = isTry ? TRY_ACCESS : OPEN_ACCESS;
    this.room = room;
    this.isTry = isTry;
    this.#accesses = [{ sequence: 0, value: access }];
    const beginning = { ...BEGINNING, settings: settingsOf(access) };
    this.#moments = [{ sequence: 0, value: { told: beginning, whole: beginning } }];
    // Whoever tries is there from the beginning.
    if (isTry) this.#audience = 0;
    this.#store = store;
  }

  /** How many entries there are. */
  get length(): number {
    return this.#heads.length;
  }

  /** The access as far as it is stored. */
  get access(): RoomAccess {
    return (this.#accesses.at(-1) as At<RoomAccess>).value;
  }

  get chapters(): readonly Chapter[] {
    return this.#chapters.chapters;
  }

  /** How often instructors have edited chapters. */
  get chapterEdits(): number {
    return this.#chapterEdits;
  }

  get timeline(): Timeline {
    if (this.#timeline?.length !== this.length) this.#timeline = timelineOf(this.#heads);
    return this.#timeline;
  }

  /** Takes in what has been stored since. Rejects with the store's error. */
  async follow(): Promise<void> {
    this.#following ??= this.#readOn().finally(() => {
      this.#following = null;
    });
    await this.#following;
  }

  accessAt(sequence: number): RoomAccess {
    return lastAt(this.#accesses, sequence);
  }

  /** Whether anybody who doesn't instruct had come by then. */
  hadAudience(sequence: number): boolean {
    return sequence >= this.#audience;
  }

  /** The room right after an entry, besides its board, as a viewer has it. */
  momentAt(sequence: number, { as, participant }: Watching): Moment {
    const { told, whole } = lastAt(this.#moments, sequence);
    const you = participant === null ? null : this.persons.find(participant);
    const moment = as === "instructor" ? whole : momentFor(told, you);
    const head = this.#heads[sequence - 1];
    return head ? { ...moment, sequence, time: head.time } : moment;
  }

  /** The newest try of each card at a moment, as it was judged. */
  triesAt(sequence: number): readonly KeptTry[] {
    return lastAt(this.#tries, sequence);
  }

  /** The newest zeroing of each card, and the lines, in the same way. */
  stepsAt(sequence: number): readonly KeptStep[] {
    return lastAt(this.#steps, sequence);
  }

  /** Sequence of the last change of the board at a moment, 0 before the first. */
  revisionAt(sequence: number): number {
    let at = Math.min(sequence, this.length);
    while (at > 0 && this.#heads[at - 1]?.kind !== ENTRY.update) at--;
    return at;
  }

  /** The last of the entries from `from` on that together stay within these limits; `from` itself in any case. */
  endOf(from: number, to: number, mostEntries: number, mostBytes: number): number {
    let bytes = 0;
    const last = Math.min(to, this.length, from + mostEntries - 1);
    for (let at = from; at <= last; at++) {
      bytes += this.#sizes[at - 1] ?? 0;
      if (bytes > mostBytes && at > from) return at - 1;
    }
    return last;
  }

  /** Ids and kinds that occur in the history, for an archive to refer to; ids in the order of their numbers. */
  archived(): { readonly participants: readonly string[]; readonly kinds: readonly string[] } {
    return { participants: this.persons.ids(), kinds: [...new Set(this.#heads.map(({ kind }) => kind))] };
  }

  /** Entries as a viewer is sent them. */
  async entries(from: number, to: number, viewer: Watching): Promise<readonly ReplayEntry[]> {
    const entries = await this.#store.read(this.room, from, Math.min(to, this.length));
    return entries.map((entry) => forReplay(entry, this.accessAt(entry.sequence), this.persons, viewer));
  }

  async #readOn(): Promise<void> {
    for (;;) {
      const after = this.length;
      const heads = await this.#store.heads(this.room, after, PAGE);
      const end = heads.at(-1)?.sequence;
      if (end === undefined) return;
      const kinds = [...new Set(heads.map(({ kind }) => kind))].filter((kind) => !MANY.includes(kind));
      const few = kinds.length === 0 ? [] : await this.#store.read(this.room, after + 1, end, kinds);
      const bySequence = new Map(few.map((entry) => [entry.sequence, entry]));
      for (const { size, ...head } of heads) {
        const number = this.persons.number(head.participant);
        this.#heads.push({ ...head, participant: number });
        this.#sizes.push(size);
        const entry = bySequence.get(head.sequence);
        if (entry) this.#take(entry);
      }
      if (heads.length < PAGE) return;
    }
  }

  #take(entry: HistoryEntry): void {
    const { sequence } = entry;
    const change = OF_ACCESS.includes(entry.kind) ? readChange(entry.bytes) : null;
    if (change) {
      this.#accesses.push({ sequence, value: changed(this.access, change) });
      if (change.do === "admit" && change.role !== "instructor") this.#audience = Math.min(this.#audience, sequence);
    }
    const made = entry.kind === ENTRY.try ? readTry(entry.bytes) : null;
    if (made) this.#tries.push({ sequence, value: withTry(this.triesAt(sequence), made) });
    const step = entry.kind === ENTRY.try && !made ? readStep(entry.bytes) : null;
    if (step) this.#steps.push({ sequence, value: withStep(this.stepsAt(sequence), step) });
    // What was answered changes what is told of the value.
    const event = entry.kind === ENTRY.question ? readHelpEvent(entry.bytes) : null;
    if (event) this.#tries.push({ sequence, value: withHelp(this.triesAt(sequence), event) });
    const { participant } = entry;
    const eventFor = (as: Watching["as"]) =>
      readEvent(forReplay(entry, this.access, this.persons, { as, participant }));
    // Chapters are the same for all viewers.
    const told = eventFor("member");
    const before = (this.#moments.at(-1) as At<Moments>).value;
    const value = { told: afterEvent(before.told, told), whole: afterEvent(before.whole, eventFor("instructor")) };
    this.#moments.push({ sequence, value });
    this.#chapters.take(told);
    if (told.kind === "chapter") this.#chapterEdits++;
  }
}

/** The value that counts at a sequence, of a list by rising sequences that begins with 0. */
function lastAt<T>(values: readonly At<T>[], sequence: number): T {
  const count = countWhile(values.length, (place) => (values[place] as At<T>).sequence <= sequence);
  return (values[Math.max(0, count - 1)] as At<T>).value;
}
