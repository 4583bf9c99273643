"use client";

import { type FormEvent, useId, useState } from "react";
import type { TryReply } from "../../shared/messages";
import type { SumCard } from "./cards";
import { EntryInput } from "./EntryInput";
import { QuantityName } from "./QuantityName";
import styles from "./try.module.css";

/** What was handed in here, and what the server said to it. */
export type OwnTry = { readonly text: string; readonly reply: TryReply };

type Props = {
  readonly card: SumCard;
  /** Name of the wanted quantity. */
  readonly name: string;
  readonly hand: (text: string) => Promise<TryReply>;
  /** The names of field and button for whoever does not see where they stand. */
  readonly label: string;
  readonly act: string;
  /** Id of what is said about the tries. */
  readonly said: string;
  readonly isFaulty: boolean;
  readonly tell: (own: OwnTry | null) => void;
};

/** The place for a value of one's own. */
export function TryField({ card, name, hand, label, act, said, isFaulty, tell }: Props) {
  const id = useId();
  const [text, setText] = useState("");
  const [isWaiting, setWaiting] = useState(false);
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    if (isWaiting || text.trim() === "") return;
    setWaiting(true);
    tell(null);
    const reply = await hand(text);
    setWaiting(false);
    tell({ text, reply });
  };
  return (
    <form className={styles.field} onSubmit={submit}>
      <label htmlFor={id} className={styles.name}>
        <QuantityName name={name} primes={card.primes} /> =
      </label>
      <EntryInput
        id={id}
        className={styles.value}
        value={text}
        aria-label={label}
        aria-describedby={said}
        aria-invalid={isFaulty}
        placeholder="your value"
        onChange={(event) => setText(event.target.value)}
      />
      <button type="submit" className={styles.send} aria-label={act} aria-disabled={isWaiting}>
        Try
      </button>
    </form>
  );
}
