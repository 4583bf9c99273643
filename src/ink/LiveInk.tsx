"use client";

import { useCallback, useEffect, useRef } from "react";
import type { Awareness } from "y-protocols/awareness";
import type { Size } from "../board";
import { useStillness } from "../people";
import styles from "./ink.module.css";
import { fade, followStates, isNothingLive, type LiveScene, lengthen, noLiveOthers, paintLive } from "./liveInk";

type Props = Omit<LiveScene, "others" | "now" | "isStill"> & {
  readonly awareness: Awareness;
  readonly size: Size;
  /** Given a function that has the canvas painted again, for what happens without React's knowing. */
  readonly onReady: (redraw: () => void) => void;
};

/** What is being drawn and pointed at just now, by this page's person and by others, on a canvas of its own. */
export function LiveInk({ awareness, size, onReady, ...scene }: Props) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const others = useRef(noLiveOthers());
  const isStill = useStillness();
  const latest = useRef({ scene, size, isStill });
  latest.current = { scene, size, isStill };
  const client = useRef(awareness.clientID);
  client.current = awareness.clientID;
  const frame = useRef<number | null>(null);
  const isBlank = useRef(true);

  const redraw = useCallback(() => {
    frame.current ??= requestAnimationFrame(() => {
      frame.current = null;
      const now = performance.now();
      // One's own trail is drawn as the pointer goes, and not as often as others are told of it.
      for (const at of latest.current.scene.own.pointed.splice(0)) lengthen(others.current, client.current, at, now);
      const isFading = fade(others.current, latest.current.scene.marks, now);
      const { scene, isStill } = latest.current;
      const live = { ...scene, isStill, others: others.current, now };
      // A canvas that stays blank is not touched, or the browser would lay it over the board anew at every step of panning.
      const staysBlank = isBlank.current && isNothingLive(live);
      isBlank.current = isNothingLive(live);
      if (!staysBlank) paint(canvas.current, live);
      if (isFading) redraw();
    });
  }, []);
  useEffect(() => {
    const follow = () => {
      followStates(others.current, awareness.getStates(), awareness.clientID, performance.now());
      redraw();
    };
    awareness.on("change", follow);
    return () => awareness.off("change", follow);
  }, [awareness, redraw]);
  useEffect(() => onReady(redraw), [onReady, redraw]);
  // Everything that is drawn may have changed with what the component was given.
  useEffect(redraw);
  useEffect(
    () => () => {
      if (frame.current !== null) cancelAnimationFrame(frame.current);
      frame.current = null;
    },
    [],
  );
  const ratio = typeof window === "undefined" ? 1 : window.devicePixelRatio;
  return (
    <div className={styles.live} aria-hidden="true">
      <canvas
        ref={canvas}
        width={Math.round(size.width * ratio)}
        height={Math.round(size.height * ratio)}
        style={{ width: size.width, height: size.height }}
      />
    </div>
  );
}

function paint(canvas: HTMLCanvasElement | null, scene: LiveScene): void {
  const context = canvas?.getContext("2d");
  if (!canvas || !context) return;
  const ratio = canvas.width / Math.max(1, canvas.clientWidth);
  context.setTransform(1, 0, 0, 1, 0, 0);
  context.clearRect(0, 0, canvas.width, canvas.height);
  context.setTransform(ratio, 0, 0, ratio, 0, 0);
  paintLive(context, scene);
}
