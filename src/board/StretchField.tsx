"use client";

import { type KeyboardEvent, useEffect, useId, useRef } from "react";
import type { StretchReading } from "../../shared/board";
import { quantityProblemText } from "../../shared/quantity";
import { spotOf } from "../figure";
import { kindWords } from "../words";
import styles from "./board.module.css";
import { fieldPlace, HALF_WIDTH } from "./fieldPlace";
import type { PendingStretch } from "./overlay";
import { type Size, toScreen, type Viewport } from "./viewport";

type Props = {
  readonly pending: PendingStretch;
  readonly view: Viewport;
  readonly size: Size;
  readonly text: string;
  readonly change: (text: string) => void;
  /** Places what the field says; false where it says nothing that can be placed. */
  readonly done: () => boolean;
  readonly cancel: () => void;
  /** Gives the keyboard back to the board. */
  readonly leave: () => void;
};

/** The field at the middle of a stretched line: what is typed there decides what the line becomes. */
export function StretchField({ pending, view, size, text, change, done, cancel, leave }: Props) {
  const { reading } = pending;
  const place = stretchPlace(pending, view, size);
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
function stretchPlace({ from, to }: PendingStretch, view: Viewport, size: Size) {
  const middle = toScreen(view, spotOf({ x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 }));
  const right = middle.x + HALF_WIDTH + 26;
  const isBeside = from.y !== to.y && right + HALF_WIDTH <= size.width;
  return isBeside ? fieldPlace({ x: right, y: middle.y }, -40, size) : fieldPlace(middle, 22, size);
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
