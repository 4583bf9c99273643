"use client";

import type { PanePlace } from "../board";
import styles from "./room.module.css";

/** How much of the drawing is seen, by words; and what a phone has no keys for. */
export function ViewWords({ viewport, paste }: Pick<PanePlace, "viewport"> & { readonly paste: () => void }) {
  return (
    <fieldset className={styles.viewWords}>
      <legend>View</legend>
      <button type="button" onClick={paste}>
        Paste
      </button>
      <button type="button" onClick={viewport.fit}>
        Fit
      </button>
      <button type="button" onClick={() => viewport.zoom(1.25)}>
        Larger
      </button>
      <button type="button" onClick={() => viewport.zoom(0.8)}>
        Smaller
      </button>
    </fieldset>
  );
}
