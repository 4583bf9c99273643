"use client";

import type { EntryId } from "../../shared/board";
import type { SlipProps } from "./Slip";
import styles from "./slip.module.css";

/** What can be done to pieces of the drawing as such, one or several. */
export function PieceButtons({ actions, close, entries }: SlipProps & { readonly entries: readonly EntryId[] }) {
  const words: readonly (readonly [text: string, act: () => void])[] = [
    ["Move", actions.pickUp],
    ["Turn", actions.turn],
    ["Mirror", actions.mirror],
    ["Copy", actions.copy],
    ["Cut", actions.cut],
    ["Duplicate", actions.duplicate],
  ];
  return (
    <div className={styles.pieces}>
      {words.map(([text, act]) => (
        <button key={text} type="button" onClick={act}>
          {text}
        </button>
      ))}
      <button
        type="button"
        className={styles.danger}
        onClick={() => {
          actions.remove();
          close();
        }}
      >
        {entries.length === 1 ? "Delete" : "Delete all"}
      </button>
    </div>
  );
}
