"use client";

import { useRef } from "react";
import { happeningAt } from "./happening";
import { type ReplayPlayer, SPEEDS, type Speed } from "./player";
import styles from "./session.module.css";
import { dateText, elapsedText, lengthText } from "./times";
import { useEachTime, usePlayed } from "./usePlayer";

type Props = { readonly player: ReplayPlayer };
type TransportProps = Props & { readonly nameOf: (participant: number) => string };

/** The words that play the session, the time that is shown, and what happened last. */
export function Transport({ player, nameOf }: TransportProps) {
  const isPlaying = usePlayed(player, (state) => state.isPlaying);
  const isFirst = usePlayed(player, (state) => state.at === 0);
  const isLast = usePlayed(player, (state) => state.at === player.last);
  return (
    <div className={styles.transport}>
      <button
        type="button"
        className={styles.play}
        aria-keyshortcuts="Space"
        onClick={isPlaying ? player.pause : player.play}
      >
        {isPlaying ? "Pause" : "Play"}
      </button>
      <button type="button" aria-keyshortcuts="ArrowLeft" aria-disabled={isFirst} onClick={() => player.stepEdit(-1)}>
        Edit before
      </button>
      <button type="button" aria-keyshortcuts="ArrowRight" aria-disabled={isLast} onClick={() => player.stepEdit(1)}>
        Next edit
      </button>
      <SpeedChoice player={player} />
      <IdleChoice player={player} />
      <Happening player={player} nameOf={nameOf} />
      <Clock player={player} />
    </div>
  );
}

function SpeedChoice({ player }: Props) {
  const speed = usePlayed(player, (state) => state.speed);
  return (
    <fieldset className={styles.speeds}>
      <legend>Speed</legend>
      {SPEEDS.map((each) => (
        <button
          key={each}
          type="button"
          aria-pressed={each === speed}
          aria-label={`${speedText(each)}, ${each === 1 ? "" : `${each} times `}as fast as it was`}
          onClick={() => player.setSpeed(each)}
        >
          {speedText(each)}
        </button>
      ))}
    </fieldset>
  );
}

function speedText(speed: Speed): string {
  return speed === 0.5 ? "½×" : `${speed}×`;
}

function IdleChoice({ player }: Props) {
  const passesIdle = usePlayed(player, (state) => state.passesIdle);
  const passed = usePlayed(player, (state) => state.passed);
  if (player.idle.length === 0) return null;
  return (
    <div className={styles.idle}>
      <label className={styles.idleChoice}>
        <input type="checkbox" checked={passesIdle} onChange={(event) => player.setPassesIdle(event.target.checked)} />
        Pass over idle times
      </label>
      <output>{passed ? `${lengthText(passed.to - passed.from)} passed over` : ""}</output>
    </div>
  );
}

/** Told to whoever listens while the session stands still; while it is played it would never be silent. */
function Happening({ player, nameOf }: TransportProps) {
  const isPlaying = usePlayed(player, (state) => state.isPlaying);
  const text = usePlayed(player, ({ at }) => happeningAt(player.log, at, nameOf));
  return (
    <p className={styles.happening} title={text} aria-live={isPlaying ? "off" : "polite"} data-testid="happening">
      {text}
    </p>
  );
}

/** The time that is shown runs on with each frame, so it is written past React. */
function Clock({ player }: Props) {
  const elapsed = useRef<HTMLElement>(null);
  const date = useRef<HTMLSpanElement>(null);
  useEachTime(player, ({ time }) => {
    if (elapsed.current) elapsed.current.textContent = elapsedText(time - player.beginning);
    if (date.current) date.current.textContent = player.last === 0 ? "" : dateText(time);
  });
  return (
    <p className={styles.clock} data-testid="clock">
      <b ref={elapsed} /> of {elapsedText(player.end - player.beginning)}
      <span ref={date} />
    </p>
  );
}
