"use client";

import { useEffect, useId, useRef, useState } from "react";
import { type Person, roleText, withoutRepeats } from "./people";
import styles from "./people.module.css";

type Props = {
  readonly people: readonly Person[];
  readonly cardTitle: (key: string) => string;
  readonly shade: (person: Person) => string;
};

/** How many are named in the head of the page; the others are in the list. */
const NAMED = 3;

/** Who is here: a few names in the head of the page, and everybody, with role and open card, in a list behind a button. */
export function PeopleHere({ people, cardTitle, shade }: Props) {
  const [isOpen, setOpen] = useState(false);
  const frame = useRef<HTMLDivElement>(null);
  const list = useId();
  const here = withoutRepeats(people);
  useLeaving(frame, isOpen, () => setOpen(false));
  return (
    <div ref={frame} className={styles.here}>
      <ul className={styles.names} aria-label="Here now" data-testid="here">
        {here.slice(0, NAMED).map((person) => (
          <li key={person.id}>
            <Sign person={person} shade={shade} />
            {person.name}
            {person.isYou ? " (you)" : ""}
            {person.role && <small>{roleText(person.role)}</small>}
          </li>
        ))}
      </ul>
      <button type="button" aria-expanded={isOpen} aria-controls={list} onClick={() => setOpen(!isOpen)}>
        {here.length} here
      </button>
      <div id={list} className={styles.list} hidden={!isOpen}>
        <ul aria-label="Everyone here">
          {here.map((person) => (
            <li key={person.id}>
              <Sign person={person} shade={shade} />
              <span>
                <b>{person.name}</b>
                {person.isYou ? " (you)" : ""}
                {person.role && `, ${roleText(person.role)}`}
                {!person.isYou && <small>looks at {cardTitle(person.card)}</small>}
              </span>
            </li>
          ))}
        </ul>
      </div>
    </div>
  );
}

function Sign({ person, shade }: { readonly person: Person; readonly shade: Props["shade"] }) {
  return (
    <span className={styles.sign} style={{ color: shade(person) }} aria-hidden="true">
      {person.mark.sign}
    </span>
  );
}

/** Closes what is open on Escape, and on a press anywhere else. */
function useLeaving(frame: React.RefObject<HTMLElement | null>, isOpen: boolean, close: () => void): void {
  const latest = useRef(close);
  latest.current = close;
  useEffect(() => {
    if (!isOpen) return;
    const onKey = (event: KeyboardEvent) => event.key === "Escape" && latest.current();
    const onPress = (event: PointerEvent) => {
      if (!frame.current?.contains(event.target as Node)) latest.current();
    };
    window.addEventListener("keydown", onKey);
    window.addEventListener("pointerdown", onPress);
    return () => {
      window.removeEventListener("keydown", onKey);
      window.removeEventListener("pointerdown", onPress);
    };
  }, [isOpen, frame]);
}
