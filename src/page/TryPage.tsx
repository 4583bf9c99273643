"use client";

import dynamic from "next/dynamic";
import { TryEntrance } from "../access";
import styles from "./room.module.css";

const Room = dynamic(() => import("./Room"), {
  ssr: false,
  loading: () => <p className={styles.joining}>Joining the room …</p>,
});

type Props = {
  /** Code of the room whose problem is tried. */
  readonly tried: string;
  /** Name of the try, null for one's own. */
  readonly room: string | null;
};

/** The page of somebody's own try of a room's problem, for them and the instructor. */
export function TryPage({ tried, room }: Props) {
  return (
    <TryEntrance tried={tried} room={room}>
      {(name, lookAgain) => <Room key={name} room={name} tried={tried} lookAgain={lookAgain} />}
    </TryEntrance>
  );
}
