"use client";

import { type ReactNode, useCallback, useEffect, useId, useRef, useState } from "react";
import type { HelpQuestion, QuestionChoice, Rung } from "../../shared/messages";
import { tryRefusalText } from "../../shared/messages";
import { type AnsweredQuestion, type HelpActs, NEITHER, type ShownHelp } from "./cardTries";
import styles from "./help.module.css";
import { ReasonForm } from "./ReasonForm";

/** Lights what a rung names on the drawing, and gives the way to take that light back. */
export type Light = (rung: Pick<Rung, "parts" | "nodes">) => () => void;

type Props = {
  readonly help: ShownHelp;
  /** What may be done about it; null for those who only look. */
  readonly acts: HelpActs | null;
  readonly title: string;
  readonly light: Light;
  readonly sketch: ReactNode;
};

/** The help with a wrong value: the rungs so far, the question between two ways, more, and the reason at the end. */
export function HelpView({ help, acts, title, light, sketch }: Props) {
  const { rungs, question, answered = [], hasMore, reason } = help;
  const place = useRef<HTMLElement>(null);
  const setLit = useLight(rungs, light);
  useFocus(place, acts, rungs.length + (question ? 1 : 0));
  const isSilent = rungs.length + answered.length === 0 && !question;
  if (isSilent && !hasMore && reason.state === "notAsked") return null;
  return (
    <section ref={place} className={styles.help} aria-label={`Help with ${title}`}>
      <div aria-live="polite">
        {answered.map((each) => (
          <Answered key={each.text} {...each} />
        ))}
        {rungs.length > 0 && (
          <ul className={styles.rungs}>
            {rungs.map((rung, i) => (
              <RungItem key={rung.text} rung={rung} isNewest={i === rungs.length - 1} setLit={setLit} />
            ))}
          </ul>
        )}
        {question && <Question question={question} answer={acts?.answer ?? null} />}
      </div>
      {rungs.some(({ parts, nodes }) => parts.length + nodes.length > 0) && sketch}
      {hasMore && acts && (
        <button type="button" className={styles.act} onClick={acts.ask}>
          {rungs.length === 0 ? "Ask for help" : "Ask for more help"}
        </button>
      )}
      {acts?.refusal && (
        <p className={styles.problem} role="status">
          {tryRefusalText(acts.refusal)}
        </p>
      )}
      {reason.state === "asked" && acts?.giveReason && <ReasonForm give={acts.giveReason} />}
      {reason.state === "given" && (
        <p className={styles.given}>
          {reason.text === null ? (
            "The reason is kept for the instructor."
          ) : (
            <>
              {reason.name}’s reason: <q>{reason.text}</q>
            </>
          )}
        </p>
      )}
    </section>
  );
}

type RungProps = {
  readonly rung: Rung;
  readonly isNewest: boolean;
  readonly setLit: (rung: Rung | null) => void;
};

function RungItem({ rung, isNewest, setLit }: RungProps) {
  return (
    <li
      className={styles.rung}
      data-newest={isNewest}
      // biome-ignore lint/a11y/noNoninteractiveTabindex: reading a rung lights its parts, for the keyboard too
      tabIndex={0}
      onFocus={() => setLit(rung)}
      onBlur={() => setLit(null)}
      onPointerEnter={() => setLit(rung)}
      onPointerLeave={(event) => event.currentTarget !== document.activeElement && setLit(null)}
    >
      {rung.text}
    </li>
  );
}

type QuestionProps = {
  readonly question: HelpQuestion;
  readonly answer: ((choice: QuestionChoice) => void) | null;
};

function Question({ question, answer }: QuestionProps) {
  const id = useId();
  const [first, second] = question.deeds;
  if (answer === null) return <p className={styles.question}>{question.text}</p>;
  return (
    // biome-ignore lint/a11y/useSemanticElements: a fieldset is for fields, and these are answers
    <div role="group" aria-labelledby={id} className={styles.question}>
      <p id={id}>Two ways lead to this value. Did you …</p>
      <button type="button" className={styles.act} data-answer onClick={() => answer(0)}>
        {first}
      </button>
      <button type="button" className={styles.act} onClick={() => answer(1)}>
        {second}
      </button>
      <button type="button" className={styles.act} onClick={() => answer("neither")}>
        {NEITHER}
      </button>
    </div>
  );
}

function Answered({ text, who, choice }: AnsweredQuestion) {
  return (
    <div className={styles.question}>
      <p>{text}</p>
      <p className={styles.given}>
        Answered by {who}
        {choice === null ? "." : ": "}
        {choice !== null && <q>{choice}</q>}
      </p>
    </div>
  );
}

/** How long a rung that has just come lights its parts by itself, in ms. */
const NEW_LIGHT = 6000;

/** Lights the rung that is read; for a while, or until another is read, the one that has just come. */
function useLight(rungs: readonly Rung[], light: Light): (rung: Rung | null) => void {
  const [read, setRead] = useState<Rung | null>(null);
  const [fresh, setFresh] = useState<Rung | null>(null);
  const known = useRef(rungs.length);
  const newest = rungs.at(-1) ?? null;
  useEffect(() => {
    if (rungs.length <= known.current) return;
    known.current = rungs.length;
    setFresh(newest);
    const timer = setTimeout(() => setFresh(null), NEW_LIGHT);
    return () => clearTimeout(timer);
  }, [rungs.length, newest]);
  const lit = fresh ?? read;
  const names = JSON.stringify(lit && [lit.parts, lit.nodes]);
  useEffect(() => {
    const [parts, nodes] = (JSON.parse(names) ?? [[], []]) as [string[], string[]];
    return parts.length + nodes.length > 0 ? light({ parts, nodes }) : undefined;
  }, [names, light]);
  return useCallback((rung) => {
    setFresh(null);
    setRead(rung);
  }, []);
}

/** Brings whoever asked from this page to what came of it. */
function useFocus(place: React.RefObject<HTMLElement | null>, acts: HelpActs | null, said: number): void {
  const { isAwaited, arrived } = acts ?? { isAwaited: false, arrived: () => {} };
  useEffect(() => {
    if (!isAwaited || said === 0) return;
    const target = place.current?.querySelector<HTMLElement>("[data-answer], [data-newest=true]");
    target?.focus();
    if (target) arrived();
  }, [isAwaited, said, place, arrived]);
}
