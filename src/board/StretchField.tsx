"use client";

import { useEffect, useRef } from "react";
import type { StretchReading } from "../../shared/board";
import { quantityProblemText } from "../../shared/quantity";
import { spotOf } from "../figure";
import { kindWords } from "../words";
import { FieldOnDrawing } from "./FieldOnDrawing";
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
  const field = useRef<HTMLInputElement>(null);
  useEffect(() => field.current?.focus(), []);
  return (
    <FieldOnDrawing
      ref={field}
      place={stretchPlace(pending, view, size)}
      word="Place"
      said={readingText(reading)}
      isFaulty={reading.make === "nothing"}
      submit={() => {
        if (done()) leave();
      }}
      giveUp={() => {
        cancel();
        leave();
      }}
      aria-label="Value of the new part; nothing for a wire"
      placeholder="value"
      value={text}
      onChange={(event) => change(event.target.value)}
    />
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
