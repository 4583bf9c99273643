"use client";

import { type ReactNode, useId } from "react";
import type { SumCard } from "./cards";
import type { CardTries } from "./cardTries";
import { HelpView, type Light } from "./HelpView";
import { LastLine, OwnLine } from "./TriedLine";
import { TryField } from "./TryField";
import styles from "./try.module.css";
import { useOwnTry } from "./useOwnTry";

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
  const own = useOwnTry(tries);
  const said = useId();
  return (
    <div className={styles.panel}>
      {hand && (
        <TryField
          {...{ card, name, hand, said }}
          label={`Value to try for ${name}, ${card.title}`}
          act={`Try the value beside the working of ${card.title}`}
          isFaulty={own.isFaulty}
          tell={own.tell}
        />
      )}
      <div id={said} ref={own.outcome} className={styles.verdict}>
        {own.said && <OwnLine {...own.said} />}
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
