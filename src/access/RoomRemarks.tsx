"use client";

import type { ReactNode } from "react";
import { noticeText } from "../../shared/messages";
import type { RoomConnection, RoomState } from "../room";
import styles from "./access.module.css";

type Props = {
  readonly state: Pick<RoomState, "room" | "refusal" | "notice">;
  readonly connection: Pick<RoomConnection, "dismissRefusal">;
  /** What stands above all else that is said. */
  readonly children?: ReactNode;
};

/** What everybody here should know about the room, and why something of one's own was not taken in. */
export function RoomRemarks({ state, connection, children }: Props) {
  const standing = [standingText(state.room), state.notice?.code === "notStoring" ? noticeText(state.notice) : null];
  return (
    <div className={styles.remarks}>
      {children}
      <div role="status">{standing.map((text) => text && <p key={text}>{text}</p>)}</div>
      <div role="alert">
        {state.refusal && (
          <p className={styles.refusal}>
            {state.refusal}{" "}
            <button type="button" onClick={connection.dismissRefusal}>
              Understood
            </button>
          </p>
        )}
      </div>
    </div>
  );
}

/** What this page's person may not do here, null where they may draw. */
function standingText(room: RoomState["room"]): string | null {
  if (!room) return null;
  if (room.isEnded) return "This room has ended. Its board can still be read.";
  const isInstructor = room.you.role === "instructor";
  if (room.isLocked) return isInstructor ? "The room is locked: only instructors draw, and nobody new joins." : LOCKED;
  if (room.you.mayDraw) return null;
  if (room.you.role === "observer") return "You are looking on, without drawing.";
  return room.drawing === "instructor" ? "Only the instructor draws at the moment." : CHOSEN;
}

const LOCKED = "The instructor has locked this room, so only instructors draw at the moment.";
const CHOSEN = "The instructor has chosen who draws, and at the moment you look on.";
