import { numberOfKind, type ReplayPerson, type Timeline } from "../../shared/replay";
import { type Ruler, shareAt } from "./ruler";

/** What some people did along the ruler: one person a lane, or those for whom there is no lane of their own. */
export type Lane = {
  readonly people: readonly ReplayPerson[];
  /** Entries in each of some equal parts of the ruler. */
  readonly counts: readonly number[];
};

/** Kinds that say something about the room or its replay, and are nothing that somebody does on the board. */
const QUIET = new Set(["solved", "chapter", "leave", "join"].map(numberOfKind));

/**
 * The lanes of a session: one for each of those who did something, in the order of their numbers, and beyond `most` one for
 * all others together.
 */
export function lanesOf(
  timeline: Timeline,
  ruler: Ruler,
  people: readonly ReplayPerson[],
  columns: number,
  most: number,
): readonly Lane[] {
  const counts = countsOf(timeline, ruler, columns);
  const lanes = people.flatMap((person): Lane[] => {
    const own = counts.get(person.number);
    return own ? [{ people: [person], counts: own }] : [];
  });
  if (lanes.length <= most) return lanes;
  return [...lanes.slice(0, most - 1), lanes.slice(most - 1).reduce(together)];
}

function together(a: Lane, b: Lane): Lane {
  return {
    people: [...a.people, ...b.people],
    counts: a.counts.map((count, column) => count + (b.counts[column] ?? 0)),
  };
}

function countsOf(timeline: Timeline, ruler: Ruler, columns: number): ReadonlyMap<number, readonly number[]> {
  const { times, participants, kinds, length } = timeline;
  const counts = new Map<number, number[]>();
  for (let index = 0; index < length; index++) {
    const participant = participants[index] as number;
    const time = times[index] as number;
    if (participant === 0 || time > ruler.to || QUIET.has(kinds[index] as number)) continue;
    const own = counts.get(participant) ?? new Array<number>(columns).fill(0);
    counts.set(participant, own);
    const column = Math.min(columns - 1, Math.floor(shareAt(ruler, time) * columns));
    own[column] = (own[column] ?? 0) + 1;
  }
  return counts;
}

/** How high a column stands, from 0 to 1: so that one entry is seen beside a hundred. */
export function heightOf(count: number, highest: number): number {
  return count === 0 ? 0 : Math.log(1 + count) / Math.log(1 + Math.max(highest, 3));
}
