"use client";

import { useState } from "react";
import type { ReplayPlayer } from "./player";
import styles from "./session.module.css";
import { usePlayed } from "./usePlayer";

type Props = {
  readonly player: ReplayPlayer;
  /** Why the session did not open at the moment that was asked for. */
  readonly missed: string | null;
};

/** What of the moment that is wanted is not there, and why. */
export function Faults({ player, missed }: Props) {
  const [opened] = useState(() => player.getState().at);
  const isAtOpened = usePlayed(player, (state) => state.at === opened);
  const fault = usePlayed(player, (state) => state.fault);
  const answersFault = usePlayed(player, (state) => state.answersFault);
  const isFetching = usePlayed(player, (state) => state.isFetching && state.fault === null);
  return (
    <>
      <div role="alert">
        {fault !== null && (
          <p className={styles.fault}>
            {fault}{" "}
            <button type="button" onClick={() => player.tryAgain()}>
              Try again
            </button>
          </p>
        )}
        {missed !== null && isAtOpened && <p className={styles.fault}>{missed}</p>}
        {fault === null && answersFault !== null && (
          <p className={styles.fault}>The answers of this moment are not there yet. {answersFault}</p>
        )}
      </div>
      <div role="status">
        {isFetching && <p className={styles.fetching}>This part of the session is on its way …</p>}
      </div>
    </>
  );
}
