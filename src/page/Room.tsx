"use client";

import { useEffect, useMemo, useState } from "react";
import type { EntryId } from "../../shared/board";
import { noticeText } from "../../shared/messages";
import { type Refusal, RefusalPage, RoomRemarks, TryBand } from "../access";
import { useBoardTools } from "../board";
import { entryIdMaker, type RoomConnection, type RoomState, useRoom, useRoomState } from "../room";
import { usePaperSettings } from "../settings";
import { Announcer, AnswersInWords, CircuitInWords, CircuitValues, ProblemList, shownProblems } from "../words";
import { HeadWords } from "./HeadWords";
import { Margin } from "./Margin";
import { RedrawnPane } from "./RedrawnPane";
import { RoomBoard } from "./RoomBoard";
import { RoomHead } from "./RoomHead";
import { RoomSum } from "./RoomSum";
import styles from "./room.module.css";
import { Statement } from "./Statement";
import { captionText, questionText } from "./texts";
import { type Shows, useRoomView } from "./useRoomView";
import { useSteps } from "./useSteps";
import { useTogether } from "./useTogether";
import { useTries } from "./useTries";
import { useWorking } from "./useWorking";
import { useZeroing } from "./useZeroing";

type Props = {
  readonly room: string;
  /** Code of the room whose problem is tried, where this is somebody's own try. */
  readonly tried?: string;
  /** Asks once more whether this browser is still let into the room. */
  readonly lookAgain: () => void;
};

/** One room: joined for as long as it is on the page. */
export default function Room({ room, tried, lookAgain }: Props) {
  const connection = useRoom(room);
  if (!connection) return <p className={styles.joining}>Joining the room …</p>;
  return <JoinedRoom room={room} tried={tried ?? null} connection={connection} lookAgain={lookAgain} />;
}

type JoinedProps = Omit<Props, "tried"> & { readonly tried: string | null; readonly connection: RoomConnection };

function JoinedRoom({ room, tried, connection, lookAgain }: JoinedProps) {
  const state = useRoomState(connection);
  const { board, circuit, answers } = state;
  const tools = useBoardTools(board);
  const settings = usePaperSettings();
  const [shows, setShows] = useState<Shows>({ voltages: false, currents: false, redrawn: false });
  const newId = useMemo(() => entryIdMaker(Date.now, Math.random), []);
  const zeroing = useZeroing(state, connection);
  const view = useRoomView(board, circuit, answers, shows, settings.symbols, zeroing.becomesOn);
  const together = useTogether({ state, connection, view, tools, newId, settings });
  const { openSources } = together;
  const tries = useTries(state, connection, view);
  const steps = useSteps(state, connection, view, zeroing, state.room?.you.id ?? null);
  const working = useWorking({ state, connection, view, settings, newId, openSources, triesOf: tries.triesOf, steps });
  const chooseOnBoard = (entry: EntryId) => {
    setShows((now) => ({ ...now, redrawn: false }));
    tools.choose(entry);
  };
  const problems = useMemo(() => shownProblems(circuit, answers, state.ink), [circuit, answers, state.ink]);
  useUndoKeys(connection);
  useLookingAgain(state, lookAgain);
  if (state.gone) return <RefusalPage room={tried ?? room} refusal={GONE[state.gone]} again={lookAgain} />;

  return (
    <div className={styles.room}>
      <RoomHead state={state} name={view.wanted?.name ?? null} question={questionText(board, view.wanted)}>
        {together.here}
        <HeadWords {...{ room, tried, state, connection, view, newId, settings }} marks={together.marks} />
      </RoomHead>
      <RoomRemarks state={state} connection={connection}>
        {tried && (
          <TryBand tried={tried} room={state.room} beginAgain={() => connection.request({ do: "beginAgain" })} />
        )}
      </RoomRemarks>
      <Margin ink={together.ink} {...{ tools, shows, setShows, state, connection }} />
      <main className={styles.main}>
        <div className={styles.board}>
          {isReady(state) ? (
            <RoomBoard
              {...{ board, view, tools, settings, problems, newId }}
              command={connection.command}
              ink={together.paintings}
              layers={working.layers}
              printLayers={together.printLayers}
              hint={view.becomes ? "" : together.hint}
            >
              {(place) => (
                <>
                  {together.overlay(place)}
                  {working.overlay(place)}
                  {/* Whoever has a pen in hand writes on sources, too. */}
                  {together.ink.tool ? null : steps.overlay(place)}
                </>
              )}
            </RoomBoard>
          ) : (
            <p className={styles.joining}>Joining the room …</p>
          )}
          {view.redrawn && (
            <RedrawnPane
              redrawn={view.redrawn}
              lit={working.lit}
              tone={working.tone}
              caption={captionText(view.card, board)}
              close={() => setShows({ ...shows, redrawn: false })}
            />
          )}
        </div>
        <div className={styles.sum}>
          <RoomSum {...{ state, connection, view, newId, tries }} lookersAt={together.lookersAt} />
        </div>
        <aside className={styles.notes} aria-label="Notes">
          <ProblemList problems={problems} choose={chooseOnBoard} />
          <Statement board={board} command={connection.command} mayChange={state.room?.you.mayDraw ?? true} />
          {working.panel}
          <CircuitValues
            title={view.card?.acting ? view.card.title : "all sources"}
            isHidden={view.areValuesHidden}
            {...view.values}
          />
          <AnswersInWords report={view.report} />
          <CircuitInWords board={board} circuit={circuit} choose={chooseOnBoard} />
        </aside>
      </main>
      {isReady(state) && <Announcer board={board} circuit={circuit} wanted={view.wanted} />}
    </div>
  );
}

const GONE: Readonly<Record<"removed" | "deleted", Refusal>> = {
  removed: { code: "removed", text: noticeText({ code: "removed" }) },
  deleted: { code: "unknownRoom", text: noticeText({ code: "deleted" }) },
};

/** Whether there is a board to show: the server's, or without the server what this browser has kept. */
function isReady({ link, isKept }: RoomState): boolean {
  return link !== "joining" && (link !== "lost" || isKept !== null);
}

/** A line that cannot be put up may be one that the server refuses, which a WebSocket is not told. */
function useLookingAgain({ failedAttempts }: RoomState, lookAgain: () => void): void {
  useEffect(() => {
    if (failedAttempts > 0) lookAgain();
  }, [failedAttempts, lookAgain]);
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
