"use client";

import dynamic from "next/dynamic";
import Link from "next/link";
import { useEffect } from "react";
import type { EntryId, InkMark } from "../../shared/board";
import { tryPath } from "../access";
import { SheetButton } from "../paper";
import { keepPages, type RoomConnection, type RoomState } from "../room";
import type { PaperSettings } from "../settings";
import styles from "./room.module.css";
import type { useRoomView } from "./useRoomView";

// Sheets come after the room itself, all at once: a line that is down when one is opened must not keep it away.
const SHEETS = {
  file: () => import("../file/FileSheet"),
  invite: () => import("../access/InviteSheet"),
  class: () => import("../access/ClassSheet"),
};
const FileSheet = dynamic(SHEETS.file, { ssr: false });
const InviteSheet = dynamic(SHEETS.invite, { ssr: false });
const ClassSheet = dynamic(SHEETS.class, { ssr: false });

type Props = {
  readonly room: string;
  /** Code of the room whose problem is tried, where this is somebody's own try; null in a room that others join. */
  readonly tried: string | null;
  readonly state: RoomState;
  readonly connection: RoomConnection;
  readonly view: ReturnType<typeof useRoomView>;
  readonly newId: () => EntryId;
  /** The ink on the card that is shown. */
  readonly marks: readonly InkMark[];
  readonly settings: PaperSettings;
};

/** Fetches the sheets, and has the page kept for when the server is out of reach, once the room is there. */
function useFetchedAhead(isJoined: boolean): void {
  useEffect(() => {
    if (!isJoined) return;
    // What cannot be fetched or kept now is fetched when it is asked for.
    void Promise.allSettled(Object.values(SHEETS).map((fetchSheet) => fetchSheet()))
      .then(keepPages)
      .catch(() => {});
  }, [isJoined]);
}

/** The words in the head that open sheets. */
export function HeadWords({ room, tried, state, connection, view, newId, marks, settings }: Props) {
  const { board } = state;
  const you = state.room?.you;
  useFetchedAhead(state.link === "joined");
  return (
    <div className={styles.headWords}>
      <SheetButton word="Files">
        {(close) => (
          <FileSheet
            {...{ board, newId, marks, settings, close }}
            room={tried ?? room}
            figure={view.figure}
            shown={view.card?.acting ? view.card.title : "all sources"}
            command={connection.command}
            mayDraw={you?.mayDraw ?? true}
          />
        )}
      </SheetButton>
      {tried === null && (
        <>
          <SheetButton word="Class">
            {(close) =>
              state.room && <ClassSheet code={room} room={state.room} request={connection.request} close={close} />
            }
          </SheetButton>
          <SheetButton word="Invite">
            {(close) => <InviteSheet room={room} isInstructor={you?.role === "instructor"} close={close} />}
          </SheetButton>
          {you?.role === "learner" && <Link href={tryPath(room)}>Own try</Link>}
        </>
      )}
      {/* Its page is one of its own, not to be fetched with the room's. */}
      <Link href={`/room/${room}/replay`} prefetch={false}>
        Replay
      </Link>
    </div>
  );
}
