"use client";

import { useEffect, useRef, useSyncExternalStore } from "react";
import type { ReplayPlayer, ReplayState } from "./player";

/** Part of what a replay shows. `select` has to give the same value again for as long as nothing of it has changed. */
export function usePlayed<T>(player: ReplayPlayer, select: (state: ReplayState) => T): T {
  const get = () => select(player.getState());
  return useSyncExternalStore(player.subscribe, get, get);
}

/** Lets the session go on with the frames of the screen while it is played. */
export function usePlaying(player: ReplayPlayer): void {
  const isPlaying = usePlayed(player, (state) => state.isPlaying);
  useEffect(() => {
    if (!isPlaying) return;
    let before = performance.now();
    let frame = requestAnimationFrame(function next(now) {
      player.tick(Math.max(0, now - before));
      before = now;
      frame = requestAnimationFrame(next);
    });
    return () => cancelAnimationFrame(frame);
  }, [player, isPlaying]);
}

/** Calls back at once and after every change of the time that is shown, without React's knowing. */
export function useEachTime(player: ReplayPlayer, act: (state: ReplayState) => void): void {
  const latest = useRef(act);
  latest.current = act;
  useEffect(() => {
    const run = () => latest.current(player.getState());
    run();
    return player.subscribe(run);
  }, [player]);
}
