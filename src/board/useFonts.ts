"use client";

import { useEffect, useState } from "react";
import { FIGURE_FONTS } from "./drawFigure";

/** Whether the figure's fonts are ready; a canvas does not repaint by itself when they arrive. */
export function useFonts(): boolean {
  const [isReady, setReady] = useState(false);
  useEffect(() => {
    let isGone = false;
    // A font that fails to load leaves the fallback, which is as good as can be had then.
    Promise.allSettled(FIGURE_FONTS.map((font) => document.fonts.load(font))).then(() => {
      if (!isGone) setReady(true);
    });
    return () => {
      isGone = true;
    };
  }, []);
  return isReady;
}
