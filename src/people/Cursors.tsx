"use client";

import { useCallback, useEffect, useLayoutEffect, useRef } from "react";
import type { Awareness } from "y-protocols/awareness";
import { toScreen, type Viewport } from "../board";
import { GRID } from "../figure";
import { CursorMark, placeCursor } from "./CursorMark";
import { type Follower, followPointer, step } from "./follower";
import type { Person } from "./people";
import styles from "./people.module.css";
import { readPresence } from "./presence";
import { isStill } from "./useStillness";

type Props = {
  readonly awareness: Awareness;
  /** The others. */
  readonly people: readonly Person[];
  readonly view: Viewport;
  /** Width of the pane in pixels. */
  readonly width: number;
  /** Key of the card that is open here. */
  readonly card: string;
  readonly cardTitle: (key: string) => string;
  readonly shade: (person: Person) => string;
};

/** The others' pointers, each with sign and name. They glide by themselves, without React's knowing. */
export function Cursors({ awareness, people, view, width, card, cardTitle, shade }: Props) {
  const elements = useRef(new Map<number, HTMLElement>());
  const followers = useRef(new Map<number, Follower>());
  const latest = useRef({ view, width });
  latest.current = { view, width };
  const frame = useRef<number | null>(null);

  const draw = useCallback(() => {
    for (const [client, element] of elements.current)
      place(element, followers.current.get(client), latest.current.view, latest.current.width);
  }, []);
  const run = useCallback(() => {
    let before = performance.now();
    const tick = (now: number) => {
      const isMoving = [...followers.current].map(([client, each]) => {
        const next = step(each, isStill() ? Number.POSITIVE_INFINITY : now - before);
        followers.current.set(client, next);
        return next.shown !== next.target;
      });
      before = now;
      draw();
      frame.current = isMoving.includes(true) ? requestAnimationFrame(tick) : null;
    };
    frame.current ??= requestAnimationFrame(tick);
  }, [draw]);

  useEffect(() => {
    const follow = () => {
      for (const [client, state] of awareness.getStates()) {
        const { pointer } = readPresence(state);
        followers.current.set(client, followPointer(followers.current.get(client), pointer));
      }
      run();
    };
    follow();
    awareness.on("change", follow);
    return () => {
      awareness.off("change", follow);
      if (frame.current !== null) cancelAnimationFrame(frame.current);
      frame.current = null;
    };
  }, [awareness, run]);
  // With every new view or list the names move at once, with the drawing and not behind it.
  useLayoutEffect(draw);

  return (
    <div className={styles.cursors} aria-hidden="true">
      {people.map((person) => (
        <CursorMark
          key={person.client}
          ref={(element) => {
            if (element) elements.current.set(person.client, element);
            else elements.current.delete(person.client);
          }}
          person={person}
          colour={shade(person)}
          elsewhere={person.card === card ? null : cardTitle(person.card)}
        />
      ))}
    </div>
  );
}

function place(element: HTMLElement, follower: Follower | undefined, view: Viewport, width: number): void {
  const shown = follower?.shown;
  placeCursor(element, shown ? toScreen(view, { x: shown.x * GRID, y: shown.y * GRID }) : null, width);
}
