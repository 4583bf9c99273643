"use client";

import { type Person, withoutRepeats } from "./people";
import styles from "./people.module.css";
import { initials } from "./personMark";

type Props = {
  /** Those of the others who look at one card. */
  readonly people: readonly Person[];
  readonly shade: (person: Person) => string;
};

/** More than this many initials do not fit on a card. */
const SHOWN = 4;

/** Who else looks at a card: sign and initials, and the whole names for whoever listens. */
export function Lookers({ people, shade }: Props) {
  const lookers = withoutRepeats(people);
  if (lookers.length === 0) return null;
  const names = lookers.map(({ name }) => name).join(", ");
  return (
    <span className={styles.lookers} title={names} data-testid="lookers">
      <span className={styles.spoken}>
        {names} {lookers.length === 1 ? "looks" : "look"} at this.
      </span>
      {lookers.slice(0, SHOWN).map((person) => (
        <span key={person.id} aria-hidden="true" style={{ color: shade(person) }}>
          {person.mark.sign}
          {initials(person.name)}
        </span>
      ))}
      {lookers.length > SHOWN && <span aria-hidden="true">+{lookers.length - SHOWN}</span>}
    </span>
  );
}
