"use client";

import { useCallback, useEffect, useLayoutEffect, useRef } from "react";
import type { Awareness } from "y-protocols/awareness";
import { type Follower, followPointer, step } from "./follower";
import { PointerMarks, type PointersSeen, placePointer } from "./PointerMarks";
import styles from "./people.module.css";
import { readPresence } from "./presence";
import { isStill } from "./useStillness";

/** `people` are the others. */
type Props = PointersSeen & { readonly awareness: Awareness };

/** The others' pointers, each with sign and name. They glide by themselves, without React's knowing. */
export function Cursors({ awareness, people, view, width, card, cardTitle, shade }: Props) {
  const elements = useRef(new Map<number, HTMLElement>());
  const followers = useRef(new Map<number, Follower>());
  const latest = useRef({ view, width });
  latest.current = { view, width };
  const frame = useRef<number | null>(null);

  const draw = useCallback(() => {
    for (const [client, element] of elements.current)
      placePointer(element, followers.current.get(client)?.shown ?? null, latest.current);
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

  return <PointerMarks {...{ elements, people, card, cardTitle, shade }} className={styles.cursors ?? ""} />;
}
