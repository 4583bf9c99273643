"use client";

import dynamic from "next/dynamic";
import { type KeyboardEvent, type ReactNode, useEffect, useId, useRef, useState } from "react";
import type { WorkingCard } from "../../shared/messages";
import { toneVariable } from "../figure";
import { AccentBand, AccentMark, type SumCard } from "../sum";
import { spokenLine } from "./lineWriting";
import { countText, emptyText, type PanelView, stepOfKey } from "./panelView";
import type { WorkingLinesProps } from "./WorkingLines";
import styles from "./working.module.css";

// The lines and their mathematics come when there are any to show.
const WorkingLines = dynamic<WorkingLinesProps>(() => import("./WorkingLines").catch(() => ({ default: NotLoaded })), {
  ssr: false,
});

function NotLoaded() {
  return <p className={styles.words}>The lines could not be loaded. Load the page again once there is a connection.</p>;
}

type Props = Pick<WorkingLinesProps, "settings" | "tools" | "stepping" | "titleOf" | "isHidden" | "powerTable"> & {
  readonly view: PanelView;
  /** The open card, null where there is none. */
  readonly card: SumCard | null;
  /** What is tried at it. */
  readonly trying: ReactNode;
};

/** The working of the open card: what is asked, worked out line by line, in step for everybody. */
export function WorkingPanel({ view, card, trying, ...rest }: Props) {
  const heading = useId();
  const accent = card?.accent ?? null;
  const cards = view.kind === "lines" ? view.cards : NONE;
  const wanted = view.kind === "lines" ? view.working.wanted : "";
  const hasLines = cards.some((each) => each.derivation.lines.length > 0);
  const startedAt = useStarted(wanted, cards);
  const { stepping } = rest;
  const onKeyDown = (event: KeyboardEvent) => {
    const isPlain = !event.ctrlKey && !event.metaKey && !event.altKey;
    const step = stepping && isPlain ? stepOfKey(event.key, event.shiftKey, cards) : null;
    const isTyping = event.target instanceof HTMLTextAreaElement || event.target instanceof HTMLInputElement;
    if (!step || isTyping) return;
    event.preventDefault();
    stepping?.request({ do: "showLines", wanted, card: step.card, lines: step.lines });
  };
  return (
    <section
      className={styles.panel}
      style={{ "--accent": accent === null ? "var(--ink)" : toneVariable(accent) } as React.CSSProperties}
      aria-labelledby={heading}
      onKeyDown={onKeyDown}
    >
      <AccentBand accent={accent} />
      <header className={styles.head}>
        <h2 id={heading}>
          {accent !== null && <AccentMark accent={accent} />}
          Working{card ? `: ${card.title}` : ""}
        </h2>
        {hasLines && <span className={styles.count}>{countText(cards)}</span>}
      </header>
      {trying}
      {view.kind === "words" && <p className={styles.words}>{view.text}</p>}
      {view.kind === "lines" && !hasLines && <Empty cards={cards} isHidden={rest.isHidden} />}
      {view.kind === "lines" && hasLines && (
        <WorkingLines
          key={`lines ${wanted} ${card?.key}`}
          {...rest}
          working={view.working}
          cards={cards}
          startedAt={startedAt}
        />
      )}
      <NewLines key={`said ${wanted} ${card?.key}`} cards={cards} order={rest.tools.order} />
    </section>
  );
}

function Empty({ cards, isHidden }: Pick<WorkingLinesProps, "cards" | "isHidden">) {
  const last = cards.at(-1);
  return last ? <p className={styles.words}>{emptyText({ card: last, isHidden: isHidden(last) })}</p> : null;
}

const NONE: readonly WorkingCard[] = [];

/** How many lines of a card were shown when it was opened here. */
function useStarted(wanted: string, cards: readonly WorkingCard[]): (card: WorkingCard) => number {
  const key = `${wanted} ${cards.map(({ card }) => card).join(" ")}`;
  const first = useRef({ key: "", counts: new Map<string, number>() });
  if (first.current.key !== key) {
    first.current = { key, counts: new Map(cards.map(({ card, shownLines }) => [card, shownLines])) };
  }
  return ({ card }) => first.current.counts.get(card) ?? 0;
}

type NewLinesProps = { readonly cards: readonly WorkingCard[]; readonly order: WorkingLinesProps["tools"]["order"] };

/** Says each line that comes, once whoever listens is not in the middle of something. */
function NewLines({ cards, order }: NewLinesProps) {
  const before = useRef(new Map<string, number>());
  const [said, say] = useState("");
  useEffect(() => {
    const known = before.current;
    before.current = new Map(cards.map(({ card, shownLines }) => [card, shownLines]));
    const words = cards.flatMap(({ card, shownLines, derivation }) => {
      const last = known.get(card);
      if (last === undefined || shownLines <= last) return [];
      const line = derivation.lines[last];
      const more = shownLines - last - 1;
      return line ? [`${spokenLine(line, last + 1, order)}${more > 0 ? ` And ${more} more.` : ""}`] : [];
    });
    if (words.length > 0) say(words.join(" "));
  }, [cards, order]);
  return (
    <p className={styles.spoken} aria-live="polite" data-testid="new-lines">
      {said}
    </p>
  );
}
