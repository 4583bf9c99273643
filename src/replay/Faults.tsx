"use client";

import type { ReplayPlayer } from "./player";
import styles from "./session.module.css";
import { usePlayed } from "./usePlayer";

/** What of the moment that is wanted is not there, and why. */
export function Faults({ player }: { readonly player: ReplayPlayer }) {
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
