"use client";

import { type PointerEvent, useRef } from "react";
import type { Spot } from "../figure";
import type { ViewportControl } from "./useViewport";

/** Two fingers on the pane pan and zoom it. Each handler of an event says whether it has taken it. */
export function useTouches(viewport: ViewportControl, spotOf: (event: PointerEvent) => Spot) {
  const fingers = useRef(new Map<number, Spot>());
  return {
    down: (event: PointerEvent): boolean => {
      fingers.current.set(event.pointerId, spotOf(event));
      return fingers.current.size > 1;
    },
    move: (event: PointerEvent): boolean => {
      const before = fingers.current.get(event.pointerId);
      if (before === undefined || fingers.current.size < 2) return false;
      const spot = spotOf(event);
      const [other] = [...fingers.current].flatMap(([id, at]) => (id === event.pointerId ? [] : [at]));
      fingers.current.set(event.pointerId, spot);
      if (other) pinch(viewport, before, spot, other);
      return true;
    },
    up: (event: PointerEvent): boolean => {
      const wasPinching = fingers.current.size > 1;
      fingers.current.delete(event.pointerId);
      return wasPinching;
    },
    /** Takes no more heed of the fingers that are down. */
    forget: () => fingers.current.clear(),
  };
}

/** One finger has moved while the other rests: zoom by their distance, pan by half the way. */
function pinch(viewport: ViewportControl, before: Spot, after: Spot, other: Spot): void {
  const distance = (a: Spot, b: Spot) => Math.max(1, Math.hypot(a.x - b.x, a.y - b.y));
  const middle = { x: (after.x + other.x) / 2, y: (after.y + other.y) / 2 };
  viewport.zoom(distance(after, other) / distance(before, other), middle);
  viewport.pan((after.x - before.x) / 2, (after.y - before.y) / 2);
}
