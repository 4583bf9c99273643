"use client";

import { type ReactNode, useMemo } from "react";
import type { Answers } from "../../shared/messages";
import { AnswersInWords, CircuitInWords, CircuitValues, ProblemList, shownProblems } from "../words";
import notesStyles from "./notes.module.css";
import type { ShownRoom } from "./sessionLog";
import type { Scene } from "./useScene";

type Props = {
  readonly shown: ShownRoom;
  readonly scene: Scene;
  readonly answers: Answers | null;
  /** Whose cards are opened. */
  readonly choice: ReactNode;
  /** The worked lines of the open card. */
  readonly panel: ReactNode;
};

/** What stands beside the board in the room as well: the problem, the working, and all of it in words. */
export function WorkingPage({ shown, scene: { view }, answers, choice, panel }: Props) {
  const { board, circuit, ink } = shown;
  const problems = useMemo(() => shownProblems(circuit, answers, ink), [circuit, answers, ink]);
  return (
    <>
      <ProblemList problems={problems} choose={null} />
      {choice}
      {board.statement && <p className={notesStyles.statement}>{board.statement}</p>}
      {panel}
      <CircuitValues
        title={view.card?.acting ? view.card.title : "all sources"}
        isHidden={view.card?.isHidden ?? false}
        {...view.values}
      />
      <AnswersInWords report={view.report} />
      <CircuitInWords board={board} circuit={circuit} choose={null} />
    </>
  );
}
