"use client";

import type { ReactNode } from "react";
import type { Board } from "../../shared/board";
import { sumNote } from "../page/texts";
import { SumLine, TOTAL } from "../sum";
import styles from "./replay.module.css";
import type { ShownRoom } from "./sessionLog";
import { type Names, triesThen } from "./triedThen";
import type { Scene } from "./useScene";

type Props = {
  /** What its landmark is called. */
  readonly label?: string;
  /** Which moment it is of, where another one stands beside it. */
  readonly heading?: string;
  readonly shown: ShownRoom;
  readonly scene: Scene;
  /** Opens a card. */
  readonly choose: (card: string) => void;
  readonly lookersAt: (card: string) => ReactNode;
  readonly names: Names;
  /** Whether the answers are still those of another moment. */
  readonly isAwaited: boolean;
};

/** The sum line of a moment, with the tries as they stood. */
export function MomentSum({
  label = "The sum",
  heading,
  shown,
  scene: { view, outdated },
  choose,
  lookersAt,
  names,
  isAwaited,
}: Props) {
  const { board, circuit, moment } = shown;
  return (
    <div className={styles.momentSum} aria-busy={isAwaited} data-awaited={isAwaited}>
      {heading && <p className={styles.sumHead}>{heading}</p>}
      <SumLine
        label={label}
        wanted={view.report?.wanted ?? []}
        focus={view.focus}
        setFocus={view.setFocus}
        cards={view.cards}
        figureOf={view.figureOf}
        chosen={view.card?.key ?? TOTAL}
        choose={choose}
        lookersAt={lookersAt}
        note={unbegunText(board) ?? sumNote(board, circuit, view.report, view.wanted, true)}
        showingOf={null}
        triesOf={(card) => triesThen(moment.tries, view.wanted?.name ?? null, card, names, outdated)}
        handing={null}
        groups={null}
      />
    </div>
  );
}

/** What stands in the sum's place before there is anything to sum; here nobody is told to draw it. */
function unbegunText({ parts, wanted }: Board): string | null {
  if (parts.length === 0) return "At this moment nothing is drawn yet.";
  return wanted.length === 0 ? "At this moment nothing is wanted yet." : null;
}
