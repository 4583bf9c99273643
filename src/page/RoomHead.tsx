"use client";

import Link from "next/link";
import type { ReactNode } from "react";
import { Wordmark } from "../paper";
import type { RoomState } from "../room";
import { QuantityName } from "../sum";
import styles from "./room.module.css";
import { linkText } from "./texts";

type Props = {
  readonly state: Pick<RoomState, "link" | "lostSince" | "isKept">;
  readonly name: string | null;
  readonly question: string;
  /** What else stands in the head: words that open sheets. */
  readonly children: ReactNode;
};

/** The head of the page: what is asked, and whether the page is connected. */
export function RoomHead({ state, name, question, children }: Props) {
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
      {children}
    </header>
  );
}

function timeOfDay(time: number): string {
  return new Date(time).toLocaleTimeString([], { hour: "2-digit", minute: "2-digit" });
}
