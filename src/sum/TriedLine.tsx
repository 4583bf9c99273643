import type { ReactNode } from "react";
import { judgementText } from "../../shared/check/judgementText";
import { tryRefusalText } from "../../shared/messages";
import type { LastTry } from "./cardTries";
import { type EntryMark, Mark } from "./Mark";
import type { OwnTry } from "./TryField";
import styles from "./try.module.css";
import { isTold, toldText } from "./tryWords";

/** What the server said to one's own try, where the room's newest does not say it. */
export function OwnLine({ text, reply }: OwnTry) {
  if (isTold(reply)) {
    return (
      <TriedLine who="You" text={text} mark={reply.outcome}>
        {toldText(reply)}
      </TriedLine>
    );
  }
  switch (reply.outcome) {
    case "refused":
      return <p className={styles.problem}>{tryRefusalText(reply.why)}</p>;
    case "unread":
      return <p className={styles.problem}>{judgementText(reply)}</p>;
    case "done":
      return null;
  }
}

/** The room's newest try at a card. */
export function LastLine({ last, hasCount }: { readonly last: LastTry; readonly hasCount: boolean }) {
  const { who, text, judgement, count, isOutdated } = last;
  const sentence = isOutdated ? "Tried before the circuit was changed." : toldText(judgement);
  return (
    <TriedLine who={who} text={text} mark={isOutdated ? "outdated" : judgement.outcome}>
      {sentence}
      {hasCount && count > 0 && ` ${count === 1 ? "One try" : `${count} tries`} so far.`}
    </TriedLine>
  );
}

type TriedProps = {
  readonly who: string;
  readonly text: string;
  readonly mark: EntryMark;
  readonly children: ReactNode;
};

function TriedLine({ who, text, mark, children }: TriedProps) {
  return (
    <div className={styles.tried}>
      <Mark mark={mark} />
      <p className={styles.text} title={text}>
        {who}: <b>{text}</b>
      </p>
      <p className={styles.said}>{children}</p>
    </div>
  );
}
