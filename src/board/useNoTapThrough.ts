"use client";

import { type RefObject, useEffect } from "react";

/**
 * A finger that is lifted is followed by the events of a mouse, which would press whatever the tap has just opened
 * there: the slip at the foot of a phone's board, or the field for words under the finger. Buttons on the sheet keep
 * theirs, since those are what presses them.
 */
export function useNoTapThrough(sheet: RefObject<HTMLElement | null>): void {
  useEffect(() => {
    const target = sheet.current;
    const onEnd = (event: TouchEvent) => {
      if (event.target instanceof Element && !event.target.closest("button, a, input")) event.preventDefault();
    };
    target?.addEventListener("touchend", onEnd, { passive: false });
    return () => target?.removeEventListener("touchend", onEnd);
  }, [sheet]);
}
