import type { Role } from "../../shared/messages";
import type { ReplayPerson } from "../../shared/replay";
import { findMember, type RoomAccess } from "../access";
import { NOBODY } from "../history";

/**
 * Numbers a room's participants for its replay, in the order in which the history first speaks of them; 0 is nobody. A
 * history only grows, so that a number stays somebody's.
 */
export class Persons {
  readonly #numbers = new Map<string, number>();

  /** The number of a participant, a new one where the history has not spoken of them before. */
  number(participant: string): number {
    if (participant === NOBODY) return 0;
    const known = this.#numbers.get(participant);
    if (known !== undefined) return known;
    const number = this.#numbers.size + 1;
    this.#numbers.set(participant, number);
    return number;
  }

  /** The number of a participant that the history has spoken of; null for another. */
  find(participant: string): number | null {
    return this.#numbers.get(participant) ?? null;
  }

  /** Everybody's ids by their numbers, that of what nobody did first. */
  ids(): readonly string[] {
    return [NOBODY, ...this.#numbers.keys()];
  }

  /** What those are called who asked not to be kept by name, by their ids. */
  unnamed(access: RoomAccess): ReadonlyMap<string, string> {
    const names = this.list(access);
    const members = access.members.filter(({ isNameKept }) => !isNameKept);
    return new Map(members.map(({ id }) => [id, names.find(({ number }) => number === this.find(id))?.name ?? ""]));
  }

  /** Everybody by the names that a replay may call them, which are those of now. */
  list(access: RoomAccess): readonly ReplayPerson[] {
    const counts = new Map<Role, number>();
    return [...this.#numbers].map(([participant, number]) => {
      const member = findMember(access, participant);
      const role = member?.role ?? "observer";
      const count = (counts.get(role) ?? 0) + 1;
      counts.set(role, count);
      // Somebody who was never admitted drew in a room from before anybody had to be.
      const name = member?.isNameKept ? member.name : `${member ? role : "guest"} ${member ? count : number}`;
      return { number, name, role };
    });
  }
}
