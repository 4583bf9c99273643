import { type InkSpot, inkSpot } from "../../shared/board";
import { type PointerSample, SAMPLE_INTERVAL, TRACK_SPAN, writeTrack } from "../../shared/replay";
import { ENTRY, type EntryKind, jsonBytes } from "../history";

/** Which card of which wanted quantity somebody looks at, as their page says it. */
type Look = { readonly card: string; readonly wanted: string | null };

type Watched = {
  readonly samples: PointerSample[];
  /** The newest place that came too soon after the last sample. */
  latest: PointerSample | null;
  /** Where the pointer is, as far as it is known, also after its track was recorded. */
  at: InkSpot | null;
  look: Look;
  recordedLook: Look;
  lookTime: number;
};

export type WatchServices = {
  readonly record: (kind: EntryKind, participant: string, bytes: Uint8Array) => void;
  /** Milliseconds since 1970. */
  readonly now: () => number;
};

const NO_LOOK: Look = { card: "", wanted: null };
/** Somebody who leafs through the cards is recorded once in this time, in ms, where they got to. */
const LOOK_INTERVAL = 1000;
/** How often it is seen to, in ms, while something waits to be recorded. */
const TICK = 500;

/**
 * Keeps for the history what people show of themselves: the card that each looks at, and where they point, sampled. Edits
 * never wait for it: a track becomes one entry every ten seconds, when its participant leaves, and when the server stops.
 */
export class Watch {
  readonly #services: WatchServices;
  readonly #watched = new Map<string, Watched>();
  #timer: NodeJS.Timeout | null = null;

  constructor(services: WatchServices) {
    this.#services = services;
  }

  /** Takes in what a page shows, which may be of anybody's making; null where it shows nothing any more. */
  see(participant: string, state: Readonly<Record<string, unknown>> | null): void {
    const watched = this.#watched.get(participant) ?? newcomer();
    this.#watched.set(participant, watched);
    const time = this.#services.now();
    if (state) watched.look = readLook(state) ?? watched.look;
    addSample(watched, { time, at: readPair(state?.pointer) });
    this.#recordDue(participant, watched, time);
    this.#tickSoon();
  }

  /** Records what is left of a participant, and forgets them. */
  leave(participant: string): void {
    const watched = this.#watched.get(participant);
    if (!watched) return;
    this.#recordLook(participant, watched, this.#services.now());
    this.#recordTrack(participant, watched);
    this.#watched.delete(participant);
  }

  /** Ends the timer that may be running. */
  destroy(): void {
    if (this.#timer) clearTimeout(this.#timer);
    this.#timer = null;
    this.#watched.clear();
  }

  #recordDue(participant: string, watched: Watched, time: number): void {
    if (time - watched.lookTime >= LOOK_INTERVAL) this.#recordLook(participant, watched, time);
    const first = watched.samples[0];
    if (first && time - first.time >= TRACK_SPAN) this.#recordTrack(participant, watched);
  }

  #recordLook(participant: string, watched: Watched, time: number): void {
    if (isSameLook(watched.look, watched.recordedLook)) return;
    watched.recordedLook = watched.look;
    watched.lookTime = time;
    this.#services.record(ENTRY.look, participant, jsonBytes(watched.look));
  }

  #recordTrack(participant: string, watched: Watched): void {
    const samples = [...watched.samples, ...(watched.latest ? [watched.latest] : [])];
    watched.samples.length = 0;
    watched.latest = null;
    if (samples.length > 0)
      this.#services.record(ENTRY.pointers, participant, writeTrack(samples, this.#services.now()));
  }

  #tickSoon(): void {
    if (this.#timer || ![...this.#watched.values()].some(isWaiting)) return;
    this.#timer = setTimeout(() => {
      this.#timer = null;
      const time = this.#services.now();
      for (const [participant, watched] of this.#watched) this.#recordDue(participant, watched, time);
      this.#tickSoon();
    }, TICK).unref();
  }
}

function newcomer(): Watched {
  return {
    samples: [],
    latest: null,
    at: null,
    look: NO_LOOK,
    recordedLook: NO_LOOK,
    lookTime: Number.NEGATIVE_INFINITY,
  };
}

function isWaiting({ samples, look, recordedLook }: Watched): boolean {
  return samples.length > 0 || !isSameLook(look, recordedLook);
}

function isSameLook(a: Look, b: Look): boolean {
  return a.card === b.card && a.wanted === b.wanted;
}

function addSample(watched: Watched, sample: PointerSample): void {
  if (isSameSpot(watched.at, sample.at)) return;
  const { samples, latest } = watched;
  watched.at = sample.at;
  const last = samples.at(-1);
  if (!last || sample.time - last.time >= SAMPLE_INTERVAL) {
    // Where the pointer rested since, it rested at the place that came too soon.
    if (latest && last && sample.time - last.time >= 2 * SAMPLE_INTERVAL) {
      samples.push({ ...latest, time: last.time + SAMPLE_INTERVAL });
    }
    samples.push(sample);
    watched.latest = null;
  } else watched.latest = sample;
}

function isSameSpot(a: InkSpot | null, b: InkSpot | null): boolean {
  return a === b || (a !== null && b !== null && a.x === b.x && a.y === b.y);
}

const CARD_LENGTH = 500;
const WANTED_LENGTH = 64;

function readLook({ card, wanted }: Readonly<Record<string, unknown>>): Look | null {
  if (typeof card !== "string" || card === "" || card.length > CARD_LENGTH) return null;
  return { card, wanted: typeof wanted === "string" && wanted.length <= WANTED_LENGTH ? wanted : null };
}

/** A spot as pages show it in their awareness. */
function readPair(value: unknown): InkSpot | null {
  if (!Array.isArray(value) || value.length !== 2) return null;
  const [x, y] = value as readonly unknown[];
  return typeof x === "number" && typeof y === "number" && Number.isFinite(x + y) ? inkSpot(x, y) : null;
}
