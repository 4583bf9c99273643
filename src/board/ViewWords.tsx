"use client";

import type { ReactNode } from "react";
import { ZOOM_STEP } from "./keys";
import type { ViewportControl } from "./useViewport";
import styles from "./view.module.css";

type Props = Pick<ViewportControl, "fit" | "zoom"> & {
  readonly legend: string;
  /** Puts it in its place on the pane. */
  readonly className: string;
  /** Further words, which come first. */
  readonly children?: ReactNode;
};

/** How much of the drawing is seen, by words. */
export function ViewWords({ legend, className, fit, zoom, children }: Props) {
  return (
    <fieldset className={`${styles.words} ${className}`}>
      <legend className={styles.unseen}>{legend}</legend>
      {children}
      <button type="button" onClick={fit}>
        Fit
      </button>
      <button type="button" onClick={() => zoom(ZOOM_STEP)}>
        Larger
      </button>
      <button type="button" onClick={() => zoom(1 / ZOOM_STEP)}>
        Smaller
      </button>
    </fieldset>
  );
}
