"use client";

import Link from "next/link";
import { useState } from "react";
import type { RoomState } from "../../shared/messages";
import styles from "./access.module.css";
import { roomPath } from "./roomLinks";

type Props = {
  /** Code of the room whose problem is tried. */
  readonly tried: string;
  /** Null until the server has said who is here. */
  readonly room: RoomState | null;
  readonly beginAgain: () => void;
};

/** Says at the head of a try whose it is and who sees it, with the way back to the room. */
export function TryBand({ tried, room, beginAgain }: Props) {
  const [isAsked, setAsked] = useState(false);
  const isOwn = room === null || room.tryOf?.owner === room.you.id;
  const mayBegin = room !== null && isOwn && room.you.mayDraw;
  const name = room?.tryOf?.ownerName ?? "";
  return (
    <section className={styles.tryBand} aria-label="Whose try this is">
      <p>
        <b>{isOwn ? "Your own try." : `${name}’s own try.`}</b>{" "}
        {isOwn ? "Only you and the instructor see it." : `Only ${name} and instructors see it.`}
      </p>
      <div className={styles.tryActs}>
        <Link href={roomPath(tried)}>Back to the room</Link>
        {mayBegin && (
          <button type="button" aria-expanded={isAsked} onClick={() => setAsked(!isAsked)}>
            Begin again
          </button>
        )}
      </div>
      {mayBegin && isAsked && (
        <div className={styles.tryAsking} role="alert">
          <p>
            The circuit of the room, as it is now, takes the place of this one. What was drawn and written here goes;
            values that were tried stay.
          </p>
          <div className={styles.tryActs}>
            <button
              type="button"
              onClick={() => {
                beginAgain();
                setAsked(false);
              }}
            >
              Take the room’s circuit
            </button>
            <button type="button" onClick={() => setAsked(false)}>
              Leave it as it is
            </button>
          </div>
        </div>
      )}
    </section>
  );
}
