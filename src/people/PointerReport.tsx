"use client";

import { useEffect, useRef } from "react";
import { paneSpot, toWorld, type Viewport } from "../board";
import { GRID } from "../figure";
import type { PresenceSender } from "./presenceSender";

type Props = { readonly view: Viewport; readonly show: PresenceSender["show"] };

/** Follows the pointer over the element that this one lies in, and shows the others where on the board it is. */
export function PointerReport({ view, show }: Props) {
  const anchor = useRef<HTMLSpanElement>(null);
  const latest = useRef(view);
  latest.current = view;
  useEffect(() => {
    const pane = anchor.current?.parentElement;
    if (!pane) return;
    const move = (event: PointerEvent) => {
      const world = toWorld(latest.current, paneSpot(pane, event));
      show({ pointer: { x: world.x / GRID, y: world.y / GRID } });
    };
    const leave = () => show({ pointer: null });
    // A finger that is lifted is nowhere; a mouse whose button comes up is still there.
    const lift = (event: PointerEvent) => event.pointerType === "touch" && leave();
    pane.addEventListener("pointermove", move);
    pane.addEventListener("pointerdown", move);
    pane.addEventListener("pointerleave", leave);
    pane.addEventListener("pointerup", lift);
    pane.addEventListener("pointercancel", leave);
    return () => {
      pane.removeEventListener("pointermove", move);
      pane.removeEventListener("pointerdown", move);
      pane.removeEventListener("pointerleave", leave);
      pane.removeEventListener("pointerup", lift);
      pane.removeEventListener("pointercancel", leave);
    };
  }, [show]);
  return <span ref={anchor} hidden />;
}
