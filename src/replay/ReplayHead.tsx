"use client";

import Link from "next/link";
import type { ReactNode } from "react";
import type { Board } from "../../shared/board";
import type { HiddenWanted } from "../../shared/messages";
import { questionText } from "../page/texts";
import { Wordmark } from "../paper";
import { QuantityName } from "../sum";
import styles from "./replay.module.css";

type Props = {
  readonly room: string;
  readonly board: Board;
  readonly wanted: HiddenWanted | null;
  /** Whether whoever looks is in the room. */
  readonly isMember: boolean;
  readonly people: ReactNode;
  /** Words that open sheets. */
  readonly children: ReactNode;
};

/** The head of a replay's page: what was asked at the moment that is shown, and who was there. */
export function ReplayHead({ room, board, wanted, isMember, people, children }: Props) {
  return (
    <header className={styles.head}>
      <Link href="/" className={styles.home} aria-label="addend, home">
        <Wordmark />
      </Link>
      <h1>
        Replay of {room}
        <span>
          {wanted && (
            <>
              Find <QuantityName name={wanted.name} />,{" "}
            </>
          )}
          {questionText(board, wanted)}
        </span>
      </h1>
      {people}
      <div className={styles.words}>
        {children}
        {isMember && (
          <Link href={`/room/${room}`} prefetch={false}>
            To the room
          </Link>
        )}
      </div>
    </header>
  );
}
