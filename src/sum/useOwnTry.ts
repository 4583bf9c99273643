"use client";

import { useRef, useState } from "react";
import type { CardTries } from "./cardTries";
import type { OwnTry } from "./TryField";
import { isOutOfReach, isTold } from "./tryWords";
import { useInSight } from "./useInSight";
import { useReturn } from "./useReturn";

/** What this page handed in last at a card. */
export function useOwnTry({ last, isReached }: CardTries) {
  const [own, tell] = useState<OwnTry | null>(null);
  const outcome = useRef<HTMLDivElement>(null);
  useInSight(outcome, own);
  useReturn(isReached, () => tell((now) => (now && isOutOfReach(now.reply) ? null : now)));
  const isSaidByLast = own !== null && last?.isOwn && isTold(own.reply);
  return {
    tell,
    isFaulty: own?.reply.outcome === "unread",
    /** What is to be said of it; null where the room's newest try says it. */
    said: isSaidByLast ? null : own,
    /** Where that is said, for it to be brought into sight. */
    outcome,
  };
}
