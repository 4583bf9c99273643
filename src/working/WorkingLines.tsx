"use client";

import { useState } from "react";
import type { PowerTable } from "../../shared/derive";
import { type ShownWorking, TOTAL_CARD, type WorkingCard } from "../../shared/messages";
import { type EquationOrder, type PaperSettings, storeSettings } from "../settings";
import { CopyChoice } from "./CopyChoice";
import { LineList } from "./LineList";
import type { LineTools } from "./lineTools";
import { copiedLines } from "./lineWriting";
import { sumOf } from "./methodText";
import { PowerNotes } from "./PowerNotes";
import { areMethodsShown, emptyText, isStepping, linesIn } from "./panelView";
import { SecondMethods } from "./SecondMethods";
import { StepBar, type Stepping } from "./StepBar";
import styles from "./working.module.css";

export type WorkingLinesProps = {
  readonly working: ShownWorking;
  readonly cards: readonly WorkingCard[];
  readonly powerTable: PowerTable | null;
  readonly titleOf: (card: WorkingCard) => string;
  readonly isHidden: (card: WorkingCard) => boolean;
  readonly settings: PaperSettings;
  readonly tools: LineTools;
  /** How many lines of a card were shown when it was opened. */
  readonly startedAt: (card: WorkingCard) => number;
  /** What the instructor needs to step; null for everybody else. */
  readonly stepping: Stepping | null;
};

/** The lines of the open card, with all that belongs to them. */
export default function WorkingLines(props: WorkingLinesProps) {
  const { working, cards, powerTable, tools, stepping } = props;
  const total = cards.find(({ card }) => card === TOTAL_CARD);
  const { secondMethods } = working;
  const hasMore = total !== undefined && (secondMethods !== null || powerTable !== null);
  return (
    <>
      <OrderAndCopy {...props} />
      {cards.map((card) => (
        <CardLines key={card.card} {...props} card={card} />
      ))}
      {hasMore && isStepping(total) && !areMethodsShown(total) && (
        <p className={styles.onlyYou}>
          <span>Others see this once all lines of the total are shown. Now only you see it.</span>
        </p>
      )}
      {hasMore && secondMethods && <SecondMethods methods={secondMethods} sum={sumOf(working)} tools={tools} />}
      {hasMore && powerTable && <PowerNotes table={powerTable} />}
      {stepping && <StepBar wanted={working.wanted} cards={cards} {...stepping} />}
    </>
  );
}

function CardLines({
  card,
  cards,
  working,
  titleOf,
  isHidden,
  tools,
  startedAt,
  stepping,
}: WorkingLinesProps & { readonly card: WorkingCard }) {
  const title = titleOf(card);
  const { request } = stepping ?? {};
  const showUpTo = request
    ? (lines: number) => request({ do: "showLines", wanted: working.wanted, card: card.card, lines })
    : null;
  return (
    <>
      {cards.length > 1 && <h3 className={styles.cardTitle}>{title}</h3>}
      {card.derivation.lines.length === 0 && (
        <p className={styles.words}>{emptyText({ card, isHidden: isHidden(card) })}</p>
      )}
      <LineList
        derivation={card.derivation}
        shown={Math.min(card.shownLines, linesIn(card))}
        label={`Lines of ${title}`}
        tools={tools}
        showUpTo={showUpTo}
        started={startedAt(card)}
      />
    </>
  );
}

function OrderAndCopy({ cards, settings, tools }: WorkingLinesProps) {
  const [isCopying, setCopying] = useState(false);
  const lines = cards.flatMap(({ derivation }) => derivation.lines);
  if (lines.length === 0) return null;
  return (
    <div className={styles.top}>
      <fieldset className={styles.order}>
        <legend className={styles.spoken}>Equations</legend>
        <OrderWord order="symbols" settings={settings} word="Symbols first" />
        <OrderWord order="numbers" settings={settings} word="Numbers first" />
      </fieldset>
      <CopyChoice
        what="all lines"
        textOf={(format, set) => copiedLines(lines, format, tools.order, set)}
        isOpen={isCopying}
        setOpen={setCopying}
      />
    </div>
  );
}

type OrderProps = { readonly order: EquationOrder; readonly settings: PaperSettings; readonly word: string };

function OrderWord({ order, settings, word }: OrderProps) {
  return (
    <button
      type="button"
      aria-pressed={settings.equations === order}
      onClick={() => storeSettings({ ...settings, equations: order })}
    >
      {word}
    </button>
  );
}
