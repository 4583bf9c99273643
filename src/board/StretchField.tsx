"use client";

import { type KeyboardEvent, useEffect, useId, useRef } from "react";
import type { StretchReading } from "../../shared/board";
import { quantityProblemText } from "../../shared/quantity";
import { spotOf } from "../figure";
import { kindWords } from "../words";
import styles from "./board.module.css";
import type { PendingStretch } from "./overlay";
import { toScreen, type Viewport } from "./viewport";

type Props = {
  readonly pending: PendingStretch;
  readonly view: Viewport;
  readonly paneWidth: number;
  readonly text: string;
  readonly change: (text: string) => void;
  /** Places what the field says; false where it says nothing that can be placed. */
  readonly done: () => boolean;
  readonly cancel: () => void;
  /** Gives the keyboard back to the board. */
  readonly leave: () => void;
};

/** Half the width of the field, and a little, so that it stays on the pane. */
const HALF = 136;

/** The field at the middle of a stretched line: what is typed there decides what the line becomes. */
export function StretchField({ pending, view, paneWidth, text, change, done, cancel, leave }: Props) {
  const { reading } = pending;
  const place = fieldPlace(pending, view, paneWidth);
  const field = useRef<HTMLInputElement>(null);
  const note = useId();
  useEffect(() => field.current?.focus(), []);
  const onKeyDown = (event: KeyboardEvent) => {
    event.stopPropagation(); // the board's own keys rest while somebody types
    if (event.key !== "Escape") return;
    cancel();
    leave();
  };
  return (
    <form
      className={styles.stretch}
      style={place}
      onPointerDown={(event) => event.stopPropagation()}
      onSubmit={(event) => {
        event.preventDefault();
        if (done()) leave();
      }}
    >
      <input
        ref={field}
        className={styles.stretchInput}
        aria-label="Value of the new part; nothing for a wire"
        aria-describedby={note}
        placeholder="value"
        autoComplete="off"
        spellCheck={false}
        value={text}
        onChange={(event) => change(event.target.value)}
        onKeyDown={onKeyDown}
      />
      <button className={styles.stretchDone} type="submit">
        Place
      </button>
      <output id={note} className={reading.make === "nothing" ? styles.stretchFault : styles.stretchNote}>
        {readingText(reading)}
      </output>
    </form>
  );
}

/** Below the middle of a level line, beside that of an upright one, and on the pane. */
function fieldPlace({ from, to }: PendingStretch, view: Viewport, paneWidth: number) {
  const { x, y } = toScreen(view, spotOf({ x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 }));
  const inPane = (left: number) => Math.max(HALF, Math.min(left, paneWidth - HALF));
  if (from.y === to.y) return { left: inPane(x), top: y + 22 };
  const right = x + HALF + 26;
  return right + HALF <= paneWidth ? { left: right, top: y - 40 } : { left: inPane(x), top: y + 22 };
}

function readingText(reading: StretchReading): string {
  if (reading.make === "wire") return "Nothing typed: a wire. Or 3.3k, 9 V, 5 mA, 22 µF, 15 mH …";
  if (reading.make === "part") return `A ${kindWords(reading.kind)}${directionText(reading.kind)}.`;
  if (reading.because === "unreadable") return quantityProblemText(reading.problem);
  return `No part has a value in ${reading.unit}. Type ohms, volts, amperes, farads or henries.`;
}

function directionText(kind: Extract<StretchReading, { make: "part" }>["kind"]): string {
  if (kind === "voltage-source") return ", + where the stretch ends";
  if (kind === "current-source") return ", its arrow towards the stretch’s end";
  return "";
}
