"use client";

import { useEffect, useRef, useState } from "react";
import { isWithin, type Size, useViewport, type ViewportControl } from "../board";
import type { Box } from "../figure";
import { roomyBox } from "./roomyBox";

/** `look` tells that whoever looks has moved the view. */
export type LookedAt = ViewportControl & { readonly look: () => void };

const NOWHERE: Box = { x: 0, y: 0, width: 0, height: 0 };

/**
 * A view that keeps all of a drawing in sight while the drawing grows, until whoever looks moves it themselves. What was once
 * seen keeps its room, so that going back and forth moves nothing. `extent` is null while there is nothing to be seen.
 */
export function useRoomyViewport(extent: Box | null, subject: string, size: Size): LookedAt {
  const [roomy, setRoomy] = useState<Box | null>(null);
  const needed = extent && roomy ? roomyBox(roomy, extent) : (extent ?? roomy);
  if (needed !== roomy) setRoomy(needed);
  const viewport = useViewport(needed ?? NOWHERE, needed === null, subject, size);
  const isLookedAt = useRef(false);
  const isFitted = useRef(false);
  const isEmpty = extent === null;
  const isSeen = isEmpty || size.width === 0 || isWithin(viewport.view, extent, size);
  useEffect(() => {
    // What comes first is fitted once, though it may be seen already.
    const isToFit = !isSeen || (!isEmpty && !isFitted.current);
    if (!isToFit || isLookedAt.current || size.width === 0) return;
    isFitted.current = true;
    viewport.fit();
  }, [isSeen, isEmpty, size.width, viewport.fit]);
  return {
    ...viewport,
    fit: () => {
      isLookedAt.current = false;
      viewport.fit();
    },
    look: () => {
      isLookedAt.current = true;
    },
  };
}
