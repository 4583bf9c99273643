"use client";

import Link from "next/link";
import { useEffect, useState } from "react";
import type { TryListed } from "../../shared/messages";
import { sheetStyles } from "../paper";
import styles from "./access.module.css";
import { type Answer, triesOf } from "./api";
import { tryPath } from "./roomLinks";
import { progressText } from "./tryProgress";

/** How often the list is asked for while it is looked at, in ms. */
const PAUSE = 5000;

/** Learners' own tries of a room's problem, for the instructor: whose there are, and how far they are. */
export function TriesList({ code }: { readonly code: string }) {
  const answer = useTries(code);
  return (
    <section aria-label="Own tries">
      <h3>Own tries</h3>
      {answer === null ? (
        <p className={sheetStyles.soft}>Looking for them …</p>
      ) : answer.ok ? (
        <Tries code={code} tries={answer.value} />
      ) : (
        <p className={sheetStyles.problem}>{answer.refusal.text}</p>
      )}
    </section>
  );
}

function Tries({ code, tries }: { readonly code: string; readonly tries: readonly TryListed[] }) {
  if (tries.length === 0) {
    return (
      <p className={sheetStyles.soft}>
        None yet. Learners find “Own try” at the head of this room: the same problem on a board of their own, seen by
        them and by you alone.
      </p>
    );
  }
  return (
    <ul className={styles.tries}>
      {tries.map(({ room, owner, progress }) => (
        <li key={room}>
          <Link href={tryPath(code, room)}>{owner.name}</Link>
          <span className={sheetStyles.soft}>{progress ? progressText(progress, new Date()) : "just begun"}</span>
        </li>
      ))}
    </ul>
  );
}

function useTries(code: string): Answer<readonly TryListed[]> | null {
  const [answer, setAnswer] = useState<Answer<readonly TryListed[]> | null>(null);
  useEffect(() => {
    let timer: ReturnType<typeof setTimeout> | null = null;
    let isGone = false;
    const look = async () => {
      const next = await triesOf(code);
      if (isGone) return;
      setAnswer(next);
      timer = setTimeout(() => void look(), PAUSE);
    };
    void look();
    return () => {
      isGone = true;
      if (timer) clearTimeout(timer);
    };
  }, [code]);
  return answer;
}
