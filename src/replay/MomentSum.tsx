"use client";

import type { ReactNode } from "react";
import { tidyCard } from "../../shared/messages";
import type { MadeTry } from "../../shared/replay";
import { sumNote } from "../page/texts";
import { type CardTries, type SumCard, SumLine, TOTAL } from "../sum";
import styles from "./replay.module.css";
import type { ShownRoom } from "./sessionLog";
import { toldThen } from "./toldThen";
import type { Scene } from "./useScene";

type Props = {
  /** What its landmark is called. */
  readonly label?: string;
  readonly shown: ShownRoom;
  readonly scene: Scene;
  /** Opens a card. */
  readonly choose: (card: string) => void;
  readonly lookersAt: (card: string) => ReactNode;
  readonly nameOf: (participant: number) => string;
  /** Number of the participant who looks; null for who came by a link. */
  readonly you: number | null;
  /** Whether the answers are still those of another moment. */
  readonly isAwaited: boolean;
};

/** The sum line of a moment, with the tries as they stood. */
export function MomentSum({
  label = "The sum",
  shown,
  scene: { view },
  choose,
  lookersAt,
  nameOf,
  you,
  isAwaited,
}: Props) {
  const { board, circuit, moment } = shown;
  return (
    <div className={styles.momentSum} aria-busy={isAwaited} data-awaited={isAwaited}>
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
        note={sumNote(board, circuit, view.report, view.wanted, true)}
        showingOf={null}
        triesOf={(card) => triesThen(moment.tries, view.wanted?.name ?? null, card, { you, nameOf })}
        handing={null}
        groups={null}
      />
    </div>
  );
}

type Namer = Pick<Props, "you" | "nameOf">;

/** The newest try at a card, as it stood then. Help is asked for in the room. */
export function triesThen(
  tries: readonly MadeTry[],
  wanted: string | null,
  card: SumCard,
  { you, nameOf }: Namer,
): CardTries | null {
  const made = tries.find((each) => each.wanted === wanted && tidyCard(each.card) === tidyCard(card.key));
  if (!made || toldThen(made.judgement) === null) return null;
  const { text, judgement, count, participant } = made;
  const isOwn = participant === you;
  const who = isOwn ? "You" : nameOf(participant);
  return { last: { text, judgement, count, isOutdated: false, help: null, who, isOwn }, hand: null, help: null };
}
