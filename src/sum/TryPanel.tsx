"use client";

import { type ReactNode, useId, useRef, useState } from "react";
import type { SumCard } from "./cards";
import type { CardTries } from "./cardTries";
import { HelpView, type Light } from "./HelpView";
import { LastLine, OwnLine } from "./TriedLine";
import { type OwnTry, TryField } from "./TryField";
import styles from "./try.module.css";
import { isTold } from "./tryWords";
import { useInSight } from "./useInSight";

export type TryPanelProps = {
  readonly card: SumCard;
  /** Name of the wanted quantity. */
  readonly name: string;
  readonly tries: CardTries;
  readonly hasCount: boolean;
  readonly light: Light;
  /** The open circuit with what is lit, for pages on which the board is out of sight. */
  readonly sketch: ReactNode;
};

/** What is tried at the open card, beside its working: the field, what is said, and the help that was asked for. */
export default function TryPanel({ card, name, tries, hasCount, light, sketch }: TryPanelProps) {
  const { last, hand } = tries;
  const [own, setOwn] = useState<OwnTry | null>(null);
  const said = useId();
  const outcome = useRef<HTMLDivElement>(null);
  useInSight(outcome, own);
  const isSaid = own !== null && !(last?.isOwn && isTold(own.reply));
  return (
    <div className={styles.panel}>
      {hand && (
        <TryField
          {...{ card, name, hand, said }}
          label={`Value to try for ${name}, ${card.title}`}
          act={`Try the value beside the working of ${card.title}`}
          isFaulty={own?.reply.outcome === "unread"}
          tell={setOwn}
        />
      )}
      <div id={said} ref={outcome} className={styles.verdict}>
        {isSaid && own && <OwnLine {...own} />}
        {last && <LastLine last={last} hasCount={hasCount} />}
      </div>
      {last?.help && (
        <HelpView
          key={last.count}
          help={last.help}
          acts={tries.help}
          title={card.title}
          light={light}
          sketch={sketch}
        />
      )}
    </div>
  );
}
