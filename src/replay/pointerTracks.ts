import type { InkSpot } from "../../shared/board";
import { countWhile } from "../../shared/quantity";
import { type PointerSample, type ReplayEvent, spotAt } from "../../shared/replay";

type Track = { readonly from: number; readonly samples: readonly PointerSample[] };

/** A pointer that has rested for this long, in ms, is put away. */
const RESTING = 30_000;

/** Where people's pointers went, by their numbers, as far as their tracks were fetched. */
export class PointerTracks {
  readonly #tracks = new Map<number, Track[]>();

  add({ participant, samples }: ReplayEvent & { readonly kind: "pointers" }): void {
    const [first] = samples;
    if (!first) return;
    const own = this.#tracks.get(participant) ?? [];
    this.#tracks.set(participant, own);
    own.push({ from: first.time, samples });
    // Tracks mostly come in order; one that was fetched after a later one finds its place.
    const before = own.at(-2);
    if (before && before.from > first.time) own.sort((a, b) => a.from - b.from);
  }

  /** Where somebody's pointer is at a time; null where it is nowhere, or where that is not known. */
  at(participant: number, time: number): InkSpot | null {
    const own = this.#tracks.get(participant) ?? [];
    const track = own[countWhile(own.length, (index) => (own[index] as Track).from <= time) - 1];
    if (!track || time - (track.samples.at(-1)?.time ?? 0) > RESTING) return null;
    return spotAt(track.samples, time);
  }
}
