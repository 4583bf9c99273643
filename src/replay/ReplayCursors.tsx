"use client";

import { useRef } from "react";
import { toScreen, type Viewport } from "../board";
import { GRID } from "../figure";
import { CursorMark, type Person, placeCursor } from "../people";
import type { ReplayPlayer } from "./player";
import styles from "./still.module.css";
import { useEachTime } from "./usePlayer";

type Props = {
  readonly player: ReplayPlayer;
  /** Those who were in the room. */
  readonly people: readonly Person[];
  readonly view: Viewport;
  readonly width: number;
  readonly card: string;
  readonly cardTitle: (key: string) => string;
  readonly shade: (person: Person) => string;
};

/** Where people pointed at the moment that is shown, each with sign and name. */
export function ReplayCursors({ player, people, view, width, card, cardTitle, shade }: Props) {
  const elements = useRef(new Map<number, HTMLElement>());
  const draw = () => {
    const { time } = player.getState();
    for (const [number, element] of elements.current) {
      const at = player.log.pointers.at(number, time);
      placeCursor(element, at && toScreen(view, { x: at.x * GRID, y: at.y * GRID }), width);
    }
  };
  useEachTime(player, draw);
  return (
    <div className={styles.cursors} aria-hidden="true">
      {people.map((person) => (
        <CursorMark
          key={person.client}
          ref={(element) => {
            if (element) elements.current.set(person.client, element);
            else elements.current.delete(person.client);
            draw();
          }}
          person={person}
          colour={shade(person)}
          elsewhere={person.card === card ? null : cardTitle(person.card)}
        />
      ))}
    </div>
  );
}
