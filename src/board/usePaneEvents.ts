"use client";

import { type KeyboardEvent, type MouseEvent, type PointerEvent, type RefObject, useRef } from "react";
import type { Spot } from "../figure";
import type { PointerSpot } from "./pointerInput";
import { useNoTapThrough } from "./useNoTapThrough";
import { useTouches } from "./useTouches";
import type { ViewportControl } from "./useViewport";
import { paneSpot, useWheel } from "./useWheel";

const MIDDLE_BUTTON = 1;

/** The pane's events: those that pan and zoom go to the view, the rest become presses on the board. */
export function usePaneEvents(
  pane: RefObject<HTMLElement | null>,
  pointer: PointerSpot,
  viewport: ViewportControl,
  onKeyDown: (event: KeyboardEvent) => void,
) {
  const spotOfEvent = (event: MouseEvent) => paneSpot(pane.current, event);
  const touches = useTouches(viewport, spotOfEvent);
  const drag = usePanDrag(viewport, spotOfEvent);
  useWheel(pane, viewport);
  useNoTapThrough(pane);
  return {
    onKeyDown: (event: KeyboardEvent<HTMLDivElement>) => {
      drag.key(event, true);
      onKeyDown(event);
    },
    onKeyUp: (event: KeyboardEvent<HTMLDivElement>) => drag.key(event, false),
    onBlur: () => drag.forget(),
    onPointerDown: (event: PointerEvent<HTMLDivElement>) => {
      if (event.button !== 0 && event.button !== MIDDLE_BUTTON) return;
      // A field that is being typed in saves when it loses the focus, which must come before its slip goes away.
      event.currentTarget.focus({ preventScroll: true });
      event.currentTarget.setPointerCapture(event.pointerId);
      if (drag.begin(event)) event.preventDefault();
      else if (touches.down(event)) pointer.cancel();
      else pointer.down(event, spotOfEvent(event));
    },
    onPointerMove: (event: PointerEvent<HTMLDivElement>) => {
      if (!drag.move(event) && !touches.move(event)) pointer.move(spotOfEvent(event));
    },
    onPointerUp: (event: PointerEvent<HTMLDivElement>) => {
      if (drag.end()) return;
      if (event.button === 0 && !touches.up(event)) pointer.up(event, spotOfEvent(event));
    },
    onPointerLeave: () => pointer.leave(),
    onPointerCancel: (event: PointerEvent<HTMLDivElement>) => {
      touches.up(event);
      drag.end();
      pointer.cancel();
    },
    onDoubleClick: (event: MouseEvent<HTMLDivElement>) => pointer.doubleClick(spotOfEvent(event)),
  };
}

/** Dragging with the middle button, or with the space bar held, takes the paper along. */
function usePanDrag(viewport: ViewportControl, spotOf: (event: MouseEvent) => Spot) {
  const isSpaceHeld = useRef(false);
  const from = useRef<Spot | null>(null);
  return {
    key: (event: KeyboardEvent, isDown: boolean) => {
      if (event.key === " ") isSpaceHeld.current = isDown;
    },
    forget: () => {
      isSpaceHeld.current = false;
    },
    begin: (event: PointerEvent): boolean => {
      if (event.button !== MIDDLE_BUTTON && !isSpaceHeld.current) return false;
      from.current = spotOf(event);
      return true;
    },
    move: (event: PointerEvent): boolean => {
      if (!from.current) return false;
      const to = spotOf(event);
      viewport.pan(to.x - from.current.x, to.y - from.current.y);
      from.current = to;
      return true;
    },
    end: (): boolean => {
      const wasDragging = from.current !== null;
      from.current = null;
      return wasDragging;
    },
  };
}
