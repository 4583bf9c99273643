"use client";

import { type ReactNode, useEffect, useMemo, useState } from "react";
import type { ReplayAnswers } from "../../shared/replay";
import { captionText } from "../page/texts";
import type { PaperSettings } from "../settings";
import { changesText } from "../words/changes";
import { circuitWords } from "../words/circuitWords";
import { MomentSum } from "./MomentSum";
import styles from "./replay.module.css";
import { isPassing, RETRYING, type ReplayApi } from "./replayApi";
import { StillBoard } from "./StillBoard";
import type { ShownRoom } from "./sessionLog";
import type { Names } from "./triedThen";
import { useScene } from "./useScene";

/** A moment that is held while another one is looked at, with the card that was open then. */
export type Held = {
  readonly shown: ShownRoom;
  readonly at: number;
  readonly when: string;
  readonly card: string;
  readonly focus: number;
};

type Props = {
  readonly held: Held;
  readonly api: ReplayApi;
  readonly settings: PaperSettings;
  readonly names: Names;
  readonly letGo: () => void;
};

/** A held moment with its board and its sum, to stand beside the one that is shown. */
export function HeldMoment({ held, api, settings, names, letGo }: Props) {
  const { shown, at, when } = held;
  const computed = useAnswers(api, at);
  const scene = useScene(shown, computed ?? NOT_YET, settings, names);
  const { view, marks } = scene;
  const { setCard, setFocus } = view;
  useEffect(() => {
    setCard(held.card);
    setFocus(held.focus);
  }, [held, setCard, setFocus]);
  return (
    <section className={styles.side} aria-label={`Held moment, ${when}`}>
      <header className={styles.sideHead}>
        <h2>Held: {when}</h2>
        <button type="button" onClick={letGo}>
          Let go
        </button>
      </header>
      <StillBoard
        board={shown.board}
        figure={view.figure}
        caption={captionText(view.card, shown.board, view.becomes !== null)}
        label="The board of the held moment"
        {...{ marks, settings }}
      >
        {scene.steps.overlay}
      </StillBoard>
      <MomentSum
        label="The sum of the held moment"
        heading={`Held: ${when}`}
        {...{ shown, scene, names }}
        choose={view.setCard}
        lookersAt={NOBODY}
        isAwaited={computed === null}
      />
    </section>
  );
}

const NOBODY = (): ReactNode => null;

const NOT_YET = { answers: null, outdated: null };

/** Asked for until they are there, or will never be. */
function useAnswers(api: ReplayApi, at: number): ReplayAnswers | null {
  const [answers, setAnswers] = useState<ReplayAnswers | null>(null);
  useEffect(() => {
    let isGone = false;
    let timer: ReturnType<typeof setTimeout> | undefined;
    const ask = async () => {
      const answer = await api.answers(at);
      if (isGone) return;
      if (answer.ok) setAnswers(answer.value);
      else if (isPassing(answer.refusal)) timer = setTimeout(ask, RETRYING);
    };
    setAnswers(null);
    void ask();
    return () => {
      isGone = true;
      clearTimeout(timer);
    };
  }, [api, at]);
  return answers;
}

type DifferenceProps = { readonly held: Held; readonly shown: ShownRoom; readonly when: string };

/** What has changed on the board from the earlier of two moments to the later, in words. */
export function Difference({ held, shown, when }: DifferenceProps) {
  const isHeldFirst = held.at <= shown.moment.sequence;
  const text = useMemo(() => {
    const wordsOf = ({ board, circuit }: ShownRoom) => circuitWords(board, circuit);
    const [before, after] = isHeldFirst ? [held.shown, shown] : [shown, held.shown];
    return changesText(wordsOf(before), wordsOf(after));
  }, [held, shown, isHeldFirst]);
  const [from, to] = isHeldFirst ? [held.when, when] : [when, held.when];
  return (
    <p className={styles.difference} role="status">
      <b>
        From {from} to {to}:
      </b>{" "}
      {text === "" ? "the circuit is the same." : text}
    </p>
  );
}
