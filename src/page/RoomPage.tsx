"use client";

import dynamic from "next/dynamic";
import type { Board } from "../../shared/board";
import styles from "./room.module.css";

type Props = {
  readonly room: string;
  /** A board to begin with where the room is still empty. */
  readonly beginWith: Board | null;
};

// A room lives in the browser: its canvas, its socket, and the one copy of yjs, which the server has loaded already.
const Room = dynamic(() => import("./Room"), {
  ssr: false,
  loading: () => <p className={styles.joining}>Joining the room …</p>,
});

/** The page of one room. */
export function RoomPage(props: Props) {
  return <Room {...props} />;
}
