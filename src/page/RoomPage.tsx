"use client";

import dynamic from "next/dynamic";
import { RoomEntrance } from "../access";
import styles from "./room.module.css";

// A room lives in the browser: its canvas, its socket, and the one copy of yjs, which the server has loaded already.
const Room = dynamic(() => import("./Room"), {
  ssr: false,
  loading: () => <p className={styles.joining}>Joining the room …</p>,
});

/** The page of one room, for those who are let in. */
export function RoomPage({ room }: { readonly room: string }) {
  return <RoomEntrance room={room}>{(lookAgain) => <Room room={room} lookAgain={lookAgain} />}</RoomEntrance>;
}
