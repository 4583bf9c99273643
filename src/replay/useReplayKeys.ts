"use client";

import { useLayoutEffect } from "react";
import type { Chapter } from "../../shared/replay";
import type { ReplayPlayer } from "./player";
import { pressReplayKey, type ReplayKey, replayKey } from "./replayKeys";

/** Controls that take the arrows, Home and End for themselves, and those that take the space bar alone. */
const OWN_KEYS = "input, textarea, select, dialog, [data-own-keys]";
const OWN_SPACE = "button, a";

/** The keys of a replay, wherever on the page the focus is, but where it is on something that takes them itself. */
export function useReplayKeys(player: ReplayPlayer, chapters: readonly Chapter[]): void {
  // A key that is pressed as soon as the ruler is there counts: effects after painting would miss it.
  useLayoutEffect(() => {
    const sequences = chapters.map(({ sequence }) => sequence);
    const onKey = (event: KeyboardEvent) => {
      const meaning = replayKey(event);
      if (!meaning || event.defaultPrevented || isTaken(event.target, meaning)) return;
      event.preventDefault();
      pressReplayKey(meaning, player, sequences);
    };
    window.addEventListener("keydown", onKey);
    return () => window.removeEventListener("keydown", onKey);
  }, [player, chapters]);
}

function isTaken(target: EventTarget | null, meaning: ReplayKey): boolean {
  if (document.querySelector("dialog[open]")) return true;
  if (!(target instanceof Element)) return false;
  // A box to tick takes the space bar alone.
  const isBox = target.matches("input[type=checkbox]");
  if (!isBox && target.closest(OWN_KEYS)) return true;
  return meaning.do === "toggle" && (isBox || target.closest(OWN_SPACE) !== null);
}
