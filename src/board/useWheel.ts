"use client";

import { type RefObject, useEffect, useRef } from "react";
import type { Spot } from "../figure";
import type { ViewportControl } from "./useViewport";

/** Where on an element a pointer is, in pixels from its upper left corner. */
export function paneSpot(
  pane: HTMLElement | null,
  event: { readonly clientX: number; readonly clientY: number },
): Spot {
  const box = pane?.getBoundingClientRect();
  return { x: event.clientX - (box?.left ?? 0), y: event.clientY - (box?.top ?? 0) };
}

/** The wheel over an element pans the view; with Ctrl, as a pinch on a touch pad comes, it zooms. */
export function useWheel(pane: RefObject<HTMLElement | null>, viewport: ViewportControl): void {
  const onWheel = useRef((_event: WheelEvent) => {});
  onWheel.current = (event) => {
    event.preventDefault();
    if (event.ctrlKey || event.metaKey) viewport.zoom(Math.exp(-event.deltaY / 400), paneSpot(pane.current, event));
    else if (event.shiftKey && event.deltaX === 0) viewport.pan(-event.deltaY, 0);
    else viewport.pan(-event.deltaX, -event.deltaY);
  };
  // React listens to the wheel passively, and a passive listener cannot keep the page from zooming.
  useEffect(() => {
    const target = pane.current;
    const listen = (event: WheelEvent) => onWheel.current(event);
    target?.addEventListener("wheel", listen, { passive: false });
    return () => target?.removeEventListener("wheel", listen);
  }, [pane]);
}
