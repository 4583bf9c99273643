"use client";

import { type ReactNode, useCallback, useEffect, useState } from "react";
import styles from "./access.module.css";
import { lookAtTry, openOwnTry, type Refusal } from "./api";
import { RefusalPage } from "./RefusalPage";
import { rememberedTry, rememberInside, rememberTry, wasInside } from "./remembered";
import { roomPath } from "./roomLinks";

type Stand =
  | { readonly at: "looking" }
  | { readonly at: "inside"; readonly name: string }
  | { readonly at: "refused"; readonly refusal: Refusal };

type Props = {
  /** Code of the room whose problem is tried. */
  readonly tried: string;
  /** Name of the try; null for one's own, which is begun where there is none yet. */
  readonly room: string | null;
  /** The try by its name. `lookAgain` asks once more whether this browser may see it. */
  readonly children: (name: string, lookAgain: () => void) => ReactNode;
};

/** Lets whose try it is, and the instructor, into a learner's own try; tells others why it is not open to them. */
export function TryEntrance({ tried, room, children }: Props) {
  const [stand, setStand] = useState<Stand>({ at: "looking" });
  const look = useCallback(async () => {
    const answer = room === null ? await openOwnTry(tried) : await lookAtTry(tried, room);
    if (answer.ok) {
      const name = answer.value.room;
      if (room === null) rememberTry(tried, name);
      rememberInside(name, true);
      return setStand({ at: "inside", name });
    }
    // Without the server, a try is what this browser has kept of it.
    const kept = room ?? rememberedTry(tried);
    const isKept = answer.refusal.code === "unreachable" && kept !== null && wasInside(kept);
    setStand(isKept ? { at: "inside", name: kept } : { at: "refused", refusal: answer.refusal });
  }, [tried, room]);
  const lookAgain = useCallback(() => void look(), [look]);
  useEffect(lookAgain, [lookAgain]);
  switch (stand.at) {
    case "looking":
      return <p className={styles.looking}>Opening the try …</p>;
    case "refused":
      return (
        <RefusalPage
          room={tried}
          refusal={stand.refusal}
          again={lookAgain}
          to={{ path: roomPath(tried), words: `To room ${tried}` }}
        />
      );
    case "inside":
      return children(stand.name, lookAgain);
  }
}
