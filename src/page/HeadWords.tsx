"use client";

import dynamic from "next/dynamic";
import type { EntryId } from "../../shared/board";
import { SheetButton } from "../paper";
import type { RoomConnection, RoomState } from "../room";
import styles from "./room.module.css";
import type { useRoomView } from "./useRoomView";

// Sheets are seldom open, and come when they are asked for.
const FileSheet = dynamic(() => import("../file/FileSheet"), { ssr: false });
const InviteSheet = dynamic(() => import("../access/InviteSheet"), { ssr: false });
const ClassSheet = dynamic(() => import("../access/ClassSheet"), { ssr: false });

type Props = {
  readonly room: string;
  readonly state: RoomState;
  readonly connection: RoomConnection;
  readonly view: ReturnType<typeof useRoomView>;
  readonly newId: () => EntryId;
};

/** The words in the head that open sheets. */
export function HeadWords({ room, state, connection, view, newId }: Props) {
  const { board } = state;
  const you = state.room?.you;
  return (
    <div className={styles.headWords}>
      <SheetButton word="Files">
        {(close) => (
          <FileSheet
            {...{ room, board, newId, close }}
            figure={view.figure}
            shown={view.card?.acting ? view.card.title : "all sources"}
            command={connection.command}
            mayDraw={you?.mayDraw ?? true}
          />
        )}
      </SheetButton>
      <SheetButton word="Class">
        {(close) => state.room && <ClassSheet room={state.room} request={connection.request} close={close} />}
      </SheetButton>
      <SheetButton word="Invite">
        {(close) => <InviteSheet room={room} isInstructor={you?.role === "instructor"} close={close} />}
      </SheetButton>
    </div>
  );
}
