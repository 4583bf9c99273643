"use client";

import { useId, useRef, useState } from "react";
import type { SumCard } from "./cards";
import { type CardTries, helpWord } from "./cardTries";
import { LastLine, OwnLine } from "./TriedLine";
import { type OwnTry, TryField } from "./TryField";
import styles from "./try.module.css";
import { isTold } from "./tryWords";
import { useInSight } from "./useInSight";

type Props = {
  readonly card: SumCard;
  /** Name of the wanted quantity. */
  readonly name: string;
  readonly tries: CardTries;
  /** Whether to say how many tries there have been. */
  readonly hasCount: boolean;
};

/** The answer's place on a card whose answer is hidden, to be filled in, and what the room has tried there. */
export default function TryCorner({ card, name, tries, hasCount }: Props) {
  const { last, hand, help } = tries;
  const [own, setOwn] = useState<OwnTry | null>(null);
  const said = useId();
  const outcome = useRef<HTMLDivElement>(null);
  useInSight(outcome, own);
  const isSaid = own !== null && !(last?.isOwn && isTold(own.reply));
  const word = helpWord(tries);
  const reason = last?.help?.reason;
  return (
    <div className={styles.corner}>
      {hand && (
        <TryField
          {...{ card, name, hand, said }}
          label={`Your value for ${name}, ${card.title}`}
          act={`Try this value for ${name}, ${card.title}`}
          isFaulty={own?.reply.outcome === "unread"}
          tell={setOwn}
        />
      )}
      <div className={styles.outcome}>
        <div id={said} ref={outcome} className={styles.verdict} aria-live="polite">
          {isSaid && own && <OwnLine {...own} />}
          {last && <LastLine last={last} hasCount={hasCount} />}
        </div>
        {word && help && (
          <button
            type="button"
            className={styles.help}
            aria-label={`${word}: ${name}, ${card.title}`}
            onClick={help.open}
          >
            {word}
          </button>
        )}
      </div>
      {reason?.state === "given" && reason.text !== null && (
        <p className={styles.reason}>
          {reason.name}’s reason: <q>{reason.text}</q>
        </p>
      )}
    </div>
  );
}
