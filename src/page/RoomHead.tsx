"use client";

import Link from "next/link";
import { useState } from "react";
import type { Link as RoomLink } from "../room";
import { QuantityName } from "../sum";
import styles from "./room.module.css";
import { linkText } from "./texts";
import { Wordmark } from "./Wordmark";

type Props = {
  readonly room: string;
  readonly link: RoomLink;
  readonly name: string | null;
  readonly question: string;
};

/** The head of the page: what is asked, whether the page is connected, and how others come in. */
export function RoomHead({ room, link, name, question }: Props) {
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
      <p className={styles.link} role="status" data-lost={link === "lost" || link === "refused"}>
        {linkText(link)}
      </p>
      <CopyLink room={room} />
    </header>
  );
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
