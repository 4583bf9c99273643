"use client";

import { useId } from "react";
import type { SumCard } from "./cards";
import { type CardTries, helpWord } from "./cardTries";
import { LastLine, OwnLine } from "./TriedLine";
import { TryField } from "./TryField";
import styles from "./try.module.css";
import { useOwnTry } from "./useOwnTry";

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
  const own = useOwnTry(tries);
  const said = useId();
  const word = helpWord(tries);
  const reason = last?.help?.reason;
  return (
    <div className={styles.corner}>
      {hand && (
        <TryField
          {...{ card, name, hand, said }}
          label={`Your value for ${name}, ${card.title}`}
          act={`Try this value for ${name}, ${card.title}`}
          isFaulty={own.isFaulty}
          tell={own.tell}
        />
      )}
      <div className={styles.outcome}>
        <div id={said} ref={own.outcome} className={styles.verdict} aria-live="polite">
          {own.said && <OwnLine {...own.said} />}
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
