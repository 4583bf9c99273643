"use client";

import { useLayoutEffect, useRef } from "react";
import { PointerMarks, type PointersSeen, placePointer } from "../people";
import type { ReplayPlayer } from "./player";
import styles from "./still.module.css";
import { useEachTime } from "./usePlayer";

/** `people` are those who were in the room. */
type Props = PointersSeen & { readonly player: ReplayPlayer };

/** Where people pointed at the moment that is shown. */
export function ReplayCursors({ player, people, view, width, card, cardTitle, shade }: Props) {
  const elements = useRef(new Map<number, HTMLElement>());
  const draw = () => {
    const { time } = player.getState();
    for (const [number, element] of elements.current)
      placePointer(element, player.log.pointers.at(number, time), { view, width });
  };
  useEachTime(player, draw);
  // With every new view or list the names move at once, with the drawing and not behind it.
  useLayoutEffect(draw);
  return <PointerMarks {...{ elements, people, card, cardTitle, shade }} className={styles.cursors ?? ""} />;
}
