"use client";

import type { EntryId } from "../../shared/board";
import { screenBox, type Viewport } from "../board";
import type { Box } from "../figure";
import type { Person } from "./people";
import styles from "./people.module.css";

type Props = {
  /** Those of the others who look at the same card. */
  readonly people: readonly Person[];
  readonly boxOf: (entry: EntryId) => Box | null;
  readonly view: Viewport;
  readonly shade: (person: Person) => string;
};

/** How far an outline stands off what it is about, in pixels. */
const AWAY = 7;

/** What the others have chosen, lightly outlined, with their sign and initials at its corner. */
export function Selections({ people, boxOf, view, shade }: Props) {
  const outlines = people.flatMap((person) =>
    person.selection.flatMap((entry) => {
      const box = boxOf(entry);
      return box ? [{ person, entry, box: screenBox(box, view) }] : [];
    }),
  );
  return (
    <div className={styles.outlines} aria-hidden="true">
      {outlines.map(({ person, entry, box }) => (
        <span
          key={`${person.client} ${entry}`}
          className={styles.outline}
          data-chosen-by={person.name}
          style={{
            left: box.x - AWAY,
            top: box.y - AWAY,
            width: box.width + 2 * AWAY,
            height: box.height + 2 * AWAY,
            color: shade(person),
          }}
        >
          <small>
            {person.mark.sign} {person.name}
          </small>
        </span>
      ))}
    </div>
  );
}
