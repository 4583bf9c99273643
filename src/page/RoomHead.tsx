"use client";

import Link from "next/link";
import { useState } from "react";
import type { RoomState } from "../room";
import { QuantityName } from "../sum";
import styles from "./room.module.css";
import { linkText } from "./texts";
import { Wordmark } from "./Wordmark";

type Props = {
  readonly room: string;
  readonly state: Pick<RoomState, "link" | "lostSince" | "isKept">;
  readonly name: string | null;
  readonly question: string;
};

/** The head of the page: what is asked, whether the page is connected, and how others come in. */
export function RoomHead({ room, state, name, question }: Props) {
  return (
    <header className={styles.head}>
      <Link href="/" className={styles.home} aria-label="addend, home">
        <Wordmark />
      </Link>
      <h1 className={styles.question}>
        {name ? (
          <>
            Find <QuantityName name={name} />, {question}
          </>
        ) : (
          question
        )}
      </h1>
      <p className={styles.link} role="status" data-lost={state.link === "lost" || state.link === "refused"}>
        {linkText(state, timeOfDay)}
      </p>
      <CopyLink room={room} />
    </header>
  );
}

function timeOfDay(time: number): string {
  return new Date(time).toLocaleTimeString([], { hour: "2-digit", minute: "2-digit" });
}

/** Copies the room's address, or, where the browser does not allow it, selects it for copying by hand. */
function CopyLink({ room }: { readonly room: string }) {
  const [said, setSaid] = useState<string | null>(null);
  const copy = async () => {
    const address = new URL(`/room/${room}`, window.location.href).href;
    try {
      await navigator.clipboard.writeText(address);
      setSaid("Link copied");
    } catch {
      // Pages that do not come over https may not write to the clipboard.
      setSaid(address);
    }
  };
  return (
    <span className={styles.copy}>
      <span className={styles.roomName}>
        Room <b>{room}</b>
      </span>
      <button type="button" onClick={copy}>
        Copy the link
      </button>
      <output className={styles.copied}>{said}</output>
    </span>
  );
}
