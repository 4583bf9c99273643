"use client";

import dynamic from "next/dynamic";
import styles from "./replay.module.css";

// A replay has the board's canvas and document, as a room has, and like it is made in the browser alone.
const Replay = dynamic(() => import("./Replay"), {
  ssr: false,
  loading: () => <p className={styles.waiting}>Opening the session …</p>,
});

/** The page on which a room's session is played back. */
export function ReplayPage({ room }: { readonly room: string }) {
  return <Replay room={room} />;
}
