"use client";

import type { ShownAnswers, WorkingCard } from "../../shared/messages";
import type { RoomConnection } from "../room";
import { backStep, nextStep, stepNote } from "./panelView";
import styles from "./working.module.css";

/** What stepping needs to know, and how it is asked for. */
export type Stepping = {
  readonly answers: ShownAnswers;
  /** Titles of the addends whose answers are hidden from the others. */
  readonly hidden: readonly string[];
  readonly request: RoomConnection["request"];
};

type Props = Stepping & { readonly wanted: string; readonly cards: readonly WorkingCard[] };

/** The instructor's words: how many lines everybody sees. */
export function StepBar({ wanted, cards, answers, hidden, request }: Props) {
  const [next, back] = [nextStep(cards), backStep(cards)];
  const note = stepNote(cards, answers, hidden);
  const all = () => {
    for (const { card } of cards) request({ do: "showLines", wanted, card, lines: "all" });
  };
  const none = () => {
    for (const { card } of cards) request({ do: "showLines", wanted, card, lines: 0 });
  };
  return (
    <div className={styles.steps}>
      {note && <p className={styles.stepNote}>{note}</p>}
      <fieldset>
        <legend className={styles.spoken}>Lines for everyone, on this card</legend>
        <button
          type="button"
          className={styles.next}
          disabled={next === null}
          onClick={() => next && request({ do: "showLines", wanted, card: next.card, lines: next.lines })}
        >
          Next line
        </button>
        <button
          type="button"
          aria-label="Back one line"
          disabled={back === null}
          onClick={() => back && request({ do: "showLines", wanted, card: back.card, lines: back.lines })}
        >
          Back
        </button>
        <button type="button" disabled={next === null} onClick={all}>
          All lines
        </button>
        <button type="button" disabled={back === null} onClick={none}>
          Hide lines
        </button>
      </fieldset>
      <fieldset className={styles.everywhere}>
        <legend>On every card:</legend>
        <button type="button" onClick={() => request({ do: "showAllLines", shown: true })}>
          show all lines
        </button>
        <button type="button" onClick={() => request({ do: "showAllLines", shown: false })}>
          hide all lines
        </button>
      </fieldset>
    </div>
  );
}
