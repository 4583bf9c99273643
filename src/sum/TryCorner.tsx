"use client";

import { type FormEvent, type ReactNode, useId, useState } from "react";
import { ENTRY_LIMIT } from "../../shared/check/characters";
import { judgementText } from "../../shared/check/judgementText";
import { type TryReply, tryRefusalText } from "../../shared/messages";
import type { SumCard } from "./cards";
import type { CardTries, LastTry } from "./cardTries";
import { QuantityName } from "./QuantityName";
import styles from "./try.module.css";

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
  const { last, hand } = tries;
  const [own, setOwn] = useState<OwnTry | null>(null);
  const said = useId();
  const isSaid = own !== null && !(last?.isOwn && isJudged(own.reply));
  return (
    <div className={styles.corner}>
      {hand && <TryField {...{ card, name, hand, said }} isFaulty={own?.reply.outcome === "unread"} tell={setOwn} />}
      <div id={said} className={styles.outcome} aria-live="polite">
        {isSaid && own && <OwnLine {...own} />}
        {last && <LastLine last={last} hasCount={hasCount} />}
      </div>
    </div>
  );
}

type OwnTry = { readonly text: string; readonly reply: TryReply };

const isJudged = ({ outcome }: TryReply) => outcome === "right" || outcome === "wrong";

type FieldProps = Pick<Props, "card" | "name"> & {
  readonly hand: NonNullable<CardTries["hand"]>;
  /** Id of what is said about the tries. */
  readonly said: string;
  readonly isFaulty: boolean;
  readonly tell: (own: OwnTry | null) => void;
};

function TryField({ card, name, hand, said, isFaulty, tell }: FieldProps) {
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
      <input
        id={id}
        value={text}
        aria-label={`Your value for ${name}, ${card.title}`}
        aria-describedby={said}
        aria-invalid={isFaulty}
        placeholder="your value"
        maxLength={ENTRY_LIMIT}
        inputMode="text"
        enterKeyHint="send"
        autoComplete="off"
        autoCapitalize="none"
        autoCorrect="off"
        spellCheck={false}
        onChange={(event) => setText(event.target.value)}
      />
      <button type="submit" aria-label={`Try this value for ${name}, ${card.title}`} aria-disabled={isWaiting}>
        Try
      </button>
    </form>
  );
}

/** What the server said to one's own try, where the room's newest does not say it. */
function OwnLine({ text, reply }: OwnTry) {
  if (reply.outcome === "refused") return <p className={styles.problem}>{tryRefusalText(reply.why)}</p>;
  if (reply.outcome === "unread") return <p className={styles.problem}>{judgementText(reply)}</p>;
  return (
    <TriedLine who="You" text={text} mark={reply.outcome}>
      {judgementText(reply)}
    </TriedLine>
  );
}

function LastLine({ last, hasCount }: { readonly last: LastTry; readonly hasCount: boolean }) {
  const { who, text, judgement, count, isOutdated } = last;
  const sentence = isOutdated ? "Tried before the circuit was changed." : judgementText(judgement);
  return (
    <TriedLine who={who} text={text} mark={isOutdated ? "outdated" : judgement.outcome}>
      {sentence}
      {hasCount && ` ${count === 1 ? "One try" : `${count} tries`} so far.`}
    </TriedLine>
  );
}

type TriedProps = {
  readonly who: string;
  readonly text: string;
  readonly mark: keyof typeof MARKS;
  readonly children: ReactNode;
};

function TriedLine({ who, text, mark, children }: TriedProps) {
  return (
    <div className={styles.tried} data-mark={mark}>
      <svg className={styles.mark} viewBox="0 0 16 16" aria-hidden="true" focusable="false">
        <path d={MARKS[mark]} />
      </svg>
      <p className={styles.text} title={text}>
        {who}: <b>{text}</b>
      </p>
      <p className={styles.said}>{children}</p>
    </div>
  );
}

/** A tick, a cross, and a stroke that says neither: told apart by their shapes. */
const MARKS = {
  right: "M2.5 8.5 L6.5 12.5 L13.5 3.5",
  wrong: "M3.5 3.5 L12.5 12.5 M12.5 3.5 L3.5 12.5",
  outdated: "M3 8 H13",
};
