import { TOTAL_CARD } from "../../shared/messages";
import type { Moment, ReplayManifest, ReplayPerson } from "../../shared/replay";
import { type Person, personMark } from "../people";

/** Those who were in the room at a moment, as the room's page knows people. */
export function peopleAt({ here, looks }: Moment, manifest: ReplayManifest): readonly Person[] {
  return here.flatMap((number): Person[] => {
    const person = manifest.participants.find((each) => each.number === number);
    if (!person) return [];
    const look = looks.find(({ participant }) => participant === number);
    return [
      {
        client: number,
        id: String(number),
        name: person.name,
        role: person.role,
        isYou: number === manifest.viewer.number,
        mark: markOf(person),
        card: look?.card ?? TOTAL_CARD,
        wanted: look?.wanted ?? null,
        selection: [],
      },
    ];
  });
}

export function markOf({ number }: ReplayPerson) {
  return personMark(number - 1);
}

/** Calls participants by the names that they may have; "somebody" for a number that is nobody's. */
export function namer(participants: readonly ReplayPerson[]): (number: number) => string {
  const names = new Map(participants.map(({ number, name }) => [number, name]));
  return (number) => names.get(number) ?? "somebody";
}

/** Whose looks a replay follows at first: the first instructor who came. */
export function firstToFollow(participants: readonly ReplayPerson[]): number | null {
  return participants.find(({ role }) => role === "instructor")?.number ?? participants[0]?.number ?? null;
}
