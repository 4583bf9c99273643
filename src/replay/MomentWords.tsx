"use client";

import { CopyButton } from "../access/CopyButton";
import { SheetButton } from "../paper";
import GoOnSheet from "./GoOnSheet";
import type { ReplayPlayer } from "./player";
import { momentLink } from "./replayAddress";
import type { ReplayApi } from "./replayApi";
import styles from "./still.module.css";
import { usePlayed } from "./usePlayer";

type Props = {
  readonly room: string;
  readonly api: ReplayApi;
  readonly player: ReplayPlayer;
  readonly secret: string | null;
  readonly mayGoOn: boolean;
  /** The moment in words. */
  readonly when: string;
  /** Holds the moment that is shown. */
  readonly hold: () => void;
};

/** What can be done with the moment that is shown. */
export function MomentWords({ room, api, player, secret, mayGoOn, when, hold }: Props) {
  const at = usePlayed(player, (state) => state.at);
  return (
    <div className={styles.momentWords}>
      <button type="button" onClick={hold}>
        Hold to compare
      </button>
      {mayGoOn && (
        <SheetButton word="Go on from here">{(close) => <GoOnSheet {...{ api, at, when, close }} />}</SheetButton>
      )}
      <CopyButton key={at} word="Copy link to this moment" text={momentLink(room, at, secret, window.location.href)} />
    </div>
  );
}
