"use client";

import { useEffect, useMemo, useState } from "react";
import type { Awareness } from "y-protocols/awareness";
import type { Participant } from "../../shared/messages";
import { type Person, peopleOf } from "./people";
import { type PresenceSender, presenceSender } from "./presenceSender";

/**
 * Everybody whose page is in the room. The list is replaced when somebody comes, goes, or looks elsewhere, and not when
 * a pointer moves: those who draw pointers follow the awareness themselves. `you` is the participant of this page.
 */
export function usePeople(
  awareness: Awareness,
  you: string | null,
  participants: readonly Participant[],
): readonly Person[] {
  const [people, setPeople] = useState<readonly Person[]>([]);
  useEffect(() => {
    const look = () => {
      const now = peopleOf(awareness.getStates(), { client: awareness.clientID, id: you }, participants);
      setPeople((before) => (JSON.stringify(before) === JSON.stringify(now) ? before : now));
    };
    look();
    awareness.on("change", look);
    return () => awareness.off("change", look);
  }, [awareness, you, participants]);
  return people;
}

/** The way to show the others what this page's person does, for as long as the component is on the page. */
export function usePresenceSender(awareness: Awareness): PresenceSender {
  const sender = useMemo(() => presenceSender(awareness), [awareness]);
  useEffect(() => () => sender.close(), [sender]);
  return sender;
}
