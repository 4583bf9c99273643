"use client";

import { useEffect, useMemo, useState } from "react";
import type { Board, Command, EntryId } from "../../shared/board";
import { noticeText } from "../../shared/messages";
import { BoardPane, type PanePlace, screenBox, type Tool } from "../board";
import { type Box, type Figure, growBox } from "../figure";
import { entryIdMaker, type RoomConnection, useRoom, useRoomState } from "../room";
import { Slip, slipPlace } from "../slip";
import { SumLine, TOTAL } from "../sum";
import { CircuitInWords, CircuitValues, ProblemList, type ShownProblem, shownProblems } from "../words";
import { Margin } from "./Margin";
import { RoomHead } from "./RoomHead";
import styles from "./room.module.css";
import { Statement } from "./Statement";
import { captionText, questionText, sumNote } from "./texts";
import { type Shows, useRoomView } from "./useRoomView";
import { ViewWords } from "./ViewWords";

type Props = {
  readonly room: string;
  /** A board to begin with where the room is still empty. */
  readonly beginWith: Board | null;
};

/** One room: joined for as long as it is on the page. */
export default function Room({ room, beginWith }: Props) {
  const connection = useRoom(room);
  if (!connection) return <p className={styles.joining}>Joining the room …</p>;
  return <JoinedRoom room={room} connection={connection} beginWith={beginWith} />;
}

function JoinedRoom({ room, connection, beginWith }: Props & { readonly connection: RoomConnection }) {
  const state = useRoomState(connection);
  const { board, circuit, answers } = state;
  const [tool, setTool] = useState<Tool>("stretch");
  const [shows, setShows] = useState<Shows>({ voltages: false, currents: false });
  const [chosen, choose] = useState<EntryId | null>(null);
  const isReady = useBeginning(state, connection, beginWith);
  const view = useRoomView(board, circuit, answers, shows);
  const problems = useMemo(() => shownProblems(circuit, answers), [circuit, answers]);
  useUndoKeys(connection);

  return (
    <div className={styles.room}>
      <RoomHead
        room={room}
        state={state}
        name={view.wanted?.name ?? null}
        question={questionText(board, view.wanted)}
      />
      <Margin tool={tool} setTool={setTool} shows={shows} setShows={setShows} state={state} connection={connection} />
      <main className={styles.main}>
        <div className={styles.board}>
          {isReady ? (
            <RoomBoard {...{ board, view, tool, chosen, choose, problems }} command={connection.command} />
          ) : (
            <p className={styles.joining}>Joining the room …</p>
          )}
        </div>
        <section className={styles.sum}>
          <SumLine
            wanted={view.report?.wanted ?? []}
            focus={view.focus}
            setFocus={view.setFocus}
            cards={view.cards}
            figureOf={view.figureOf}
            chosen={view.card?.key ?? TOTAL}
            choose={view.setCard}
            note={sumNote(board, circuit, view.report, view.wanted)}
          />
        </section>
        <aside className={styles.notes} aria-label="Notes">
          {state.notice?.code === "notStoring" && <p className={styles.notice}>{noticeText(state.notice)}</p>}
          <ProblemList problems={problems} choose={choose} />
          <Statement board={board} command={connection.command} />
          <CircuitValues title={view.card?.acting ? view.card.title : "all sources"} {...view.values} />
          <CircuitInWords board={board} circuit={circuit} choose={choose} />
        </aside>
      </main>
    </div>
  );
}

type RoomBoardProps = {
  readonly board: Board;
  readonly view: ReturnType<typeof useRoomView>;
  readonly tool: Tool;
  readonly chosen: EntryId | null;
  readonly choose: (entry: EntryId | null) => void;
  readonly problems: readonly ShownProblem[];
  readonly command: (command: Command) => void;
};

/** The board with what lies on it: the words for the view, and the slip of the chosen symbol. */
function RoomBoard({ board, view, tool, chosen, choose, problems, command }: RoomBoardProps) {
  const newId = useMemo(() => entryIdMaker(Date.now, Math.random), []);
  const common = { board, command, newId };
  return (
    <BoardPane
      {...common}
      figure={view.figure}
      tool={tool}
      chosen={chosen}
      choose={choose}
      problems={problems}
      caption={captionText(view.card, board)}
    >
      {(place) => (
        <>
          <ViewWords viewport={place.viewport} />
          {chosen && (
            <Slip
              key={chosen}
              {...common}
              entry={chosen}
              close={() => choose(null)}
              style={slipStyle(place, view.figure)}
            />
          )}
        </>
      )}
    </BoardPane>
  );
}

/** Fills an empty room with the board it is to begin with, once. True when the board can be shown. */
function useBeginning(
  { link, isKept, board }: ReturnType<typeof useRoomState>,
  connection: RoomConnection,
  beginWith: Board | null,
): boolean {
  const [isSettled, setSettled] = useState(false);
  const isEmpty = board.parts.length + board.wires.length === 0;
  useEffect(() => {
    // Without the server, the room is what this browser has kept of it.
    if (link === "joining" || (link === "lost" && isKept === null) || isSettled) return;
    if (beginWith && isEmpty && link === "joined") connection.command({ do: "fill", board: beginWith });
    // Loading the page again must not bring back what somebody has since taken away.
    if (beginWith) window.history.replaceState(null, "", window.location.pathname);
    setSettled(true);
  }, [link, isKept, isSettled, beginWith, isEmpty, connection]);
  return isSettled;
}

function useUndoKeys(connection: RoomConnection): void {
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      const isTyping = event.target instanceof HTMLInputElement || event.target instanceof HTMLTextAreaElement;
      if (isTyping || !(event.ctrlKey || event.metaKey) || event.key.toLowerCase() !== "z") return;
      event.preventDefault();
      if (event.shiftKey) connection.redo();
      else connection.undo();
    };
    window.addEventListener("keydown", onKey);
    return () => window.removeEventListener("keydown", onKey);
  }, [connection]);
}

function slipStyle({ viewport, size, chosenBox }: PanePlace, figure: Figure) {
  const onPane = (box: Box) => screenBox(box, viewport.view);
  return slipPlace(chosenBox && growBox(onPane(chosenBox), 9), figure.covered.map(onPane), size);
}
