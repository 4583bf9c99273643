"use client";

import { useSyncExternalStore } from "react";

const QUERY = "(prefers-reduced-motion: reduce)";

/** Whether the person has asked for things not to move on their screen. */
export function useStillness(): boolean {
  return useSyncExternalStore(subscribe, isStill, () => false);
}

export function isStill(): boolean {
  return window.matchMedia(QUERY).matches;
}

function subscribe(listener: () => void): () => void {
  const query = window.matchMedia(QUERY);
  query.addEventListener("change", listener);
  return () => query.removeEventListener("change", listener);
}
