"use client";

import { type ReactNode, useId } from "react";
import type { ZeroingDecision } from "../../shared/check/judgeZeroing";
import { DECISION_CHOICES, type TryRefusal, tryRefusalText, type ZeroingTry } from "../../shared/messages";
import type { HelpActs } from "../sum";
import { HelpView, type Light } from "../sum/HelpView";
import { Mark } from "../sum/Mark";
import { DECISION_WORDS } from "./decisions";
import styles from "./steps.module.css";
import { zeroingSaid } from "./zeroingWords";

export type ZeroingPanelProps = {
  readonly title: string;
  /** What is asked; null once it is right. */
  readonly question: string | null;
  readonly becomes: ReadonlyMap<string, ZeroingDecision>;
  readonly decide: ((source: string, decision: ZeroingDecision) => void) | null;
  readonly check: (() => void) | null;
  readonly last: ZeroingTry | null;
  readonly isChecked: boolean;
  /** Who had it checked last: `you` or a name. */
  readonly who: string;
  /** Whether to say how many have been checked. */
  readonly hasCount: boolean;
  readonly refusal: TryRefusal | null;
  readonly help: HelpActs | null;
  readonly light: Light;
  readonly sketch: ReactNode;
};

/** The sources of the open card one by one, with what each becomes: the drawing's choices as fields, and the help. */
export default function ZeroingPanel(props: ZeroingPanelProps) {
  const { title, question, becomes, decide, check, last, isChecked, who, hasCount, refusal, help, light, sketch } =
    props;
  const said = last && zeroingSaid(last);
  return (
    <section className={styles.panel} aria-label={`Sources of ${title}`}>
      {question !== null && <h3>{question}</h3>}
      {question !== null && (
        <div className={styles.rows}>
          {[...becomes].map(([source, decision]) => (
            <SourceRow key={source} source={source} decision={decision} decide={decide} />
          ))}
        </div>
      )}
      {question !== null && check && (
        <button type="button" className={styles.check} onClick={check}>
          Check the sources
        </button>
      )}
      <div>
        {refusal && <p className={styles.said}>{tryRefusalText(refusal)}</p>}
        {said && last && (
          <p className={styles.said}>
            <Mark mark={said.mark} /> {isChecked ? "Checked" : "Checked before"} by {who}: {said.text}
            {hasCount && ` ${last.count === 1 ? "One check" : `${last.count} checks`} so far.`}
          </p>
        )}
      </div>
      {last?.help && (
        <HelpView
          key={last.count}
          help={last.help}
          acts={help}
          title={`the sources of ${title}`}
          light={light}
          sketch={sketch}
        />
      )}
    </section>
  );
}

type RowProps = {
  readonly source: string;
  readonly decision: ZeroingDecision;
  readonly decide: ZeroingPanelProps["decide"];
};

function SourceRow({ source, decision, decide }: RowProps) {
  const id = useId();
  return (
    <fieldset className={styles.row}>
      <legend>{source}</legend>
      {DECISION_CHOICES.map((each) => (
        <label key={each}>
          <input
            type="radio"
            name={id}
            checked={each === decision}
            disabled={decide === null}
            onChange={() => decide?.(source, each)}
          />
          {DECISION_WORDS[each]}
        </label>
      ))}
    </fieldset>
  );
}
