"use client";

import { useEffect, useRef, useState } from "react";
import type { TryRefusal } from "../../shared/messages";

/** Does something each time that the room is within reach again. */
export function useReturn(isReached: boolean, act: () => void): void {
  const latest = useRef(act);
  latest.current = act;
  useEffect(() => {
    if (isReached) latest.current();
  }, [isReached]);
}

/** Why what was asked for last was not done; that the room was out of reach is said until it is not. */
export function useRefusal(isReached: boolean) {
  const [refusal, setRefusal] = useState<TryRefusal | null>(null);
  useReturn(isReached, () => setRefusal((now) => (now === "unreachable" ? null : now)));
  return [refusal, setRefusal] as const;
}
