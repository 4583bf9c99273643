import type { Participant, Role } from "../../shared/messages";
import { type PersonMark, personMark } from "./personMark";
import { type Presence, readPresence, readWho } from "./presence";

/** Somebody's page in the room. A person with two pages open is here twice, under one name and mark. */
export type Person = {
  /** The page's number among awareness clients. */
  readonly client: number;
  /** The participant, or a stand-in for one page where the server has not said who it is. */
  readonly id: string;
  readonly name: string;
  readonly role: Role | null;
  readonly isYou: boolean;
  readonly mark: PersonMark;
  readonly card: string;
  readonly wanted: string | null;
  readonly selection: Presence["selection"];
};

/** This page. Its own awareness state says nothing of who it is, since the server writes that for the others. */
export type Own = { readonly client: number; readonly id: string | null };

/**
 * Everybody whose page is here, this one first, then in the order in which they first came. `participants` is the
 * server's list, whose order gives each their mark; those it does not know take the marks behind it.
 */
export function peopleOf(
  states: ReadonlyMap<number, unknown>,
  own: Own,
  participants: readonly Participant[],
): readonly Person[] {
  const clients = [...states.keys()].sort((a, b) => a - b);
  const idOf = (client: number) => (client === own.client ? own.id : readWho(states.get(client)).id);
  const ids = new Map(clients.map((client) => [client, idOf(client) ?? `page ${client}`]));
  const order = [...new Set([...participants.map(({ id }) => id), ...ids.values()])];
  const people = clients.map((client): Person => {
    const state = states.get(client);
    const { card, wanted, selection } = readPresence(state);
    const id = ids.get(client) ?? "";
    const index = order.indexOf(id);
    const { name, role } = participants.find((each) => each.id === id) ?? readWho(state);
    return { client, id, name, role, isYou: client === own.client, mark: personMark(index), card, wanted, selection };
  });
  const rank = ({ isYou, id }: Person) => (isYou ? -1 : order.indexOf(id));
  return people.sort((a, b) => rank(a) - rank(b));
}

/** One entry a person, however many pages they have open. */
export function withoutRepeats(people: readonly Person[]): readonly Person[] {
  return people.filter((person, i) => people.findIndex(({ id }) => id === person.id) === i);
}

export function roleText(role: Role | null): string {
  switch (role) {
    case "instructor":
      return "instructor";
    case "learner":
      return "learner";
    case "observer":
      return "observer";
    case null:
      return "";
  }
}
