"use client";

import { useEffect, useRef, useState } from "react";
import type { Spot } from "../figure";
import { FieldOnDrawing } from "./FieldOnDrawing";
import { fieldPlace } from "./fieldPlace";
import type { Size } from "./viewport";

type Props = {
  readonly label: string;
  readonly text: string;
  /** Where on the pane the middle of that is which it changes. */
  readonly at: Spot;
  readonly size: Size;
  /** What to type, in words. */
  readonly hint: string;
  /** Why a text cannot stand, null where it can. */
  readonly fault: (text: string) => string | null;
  readonly save: (text: string) => void;
  readonly cancel: () => void;
  /** Gives the keyboard back to the board. */
  readonly leave: () => void;
};

/** A field on the drawing, where what it changes stands. Saves on Enter and when it is left, gives up on Escape. */
export function PlaceField({ label, text, at, size, hint, fault, save, cancel, leave }: Props) {
  const [typed, setTyped] = useState(text);
  const field = useRef<HTMLInputElement>(null);
  useEffect(() => field.current?.select(), []);
  const problem = typed === text ? null : fault(typed.trim());
  const finish = () => {
    if (problem !== null) return cancel();
    save(typed.trim());
  };
  return (
    <FieldOnDrawing
      ref={field}
      place={fieldPlace(at, 14, size)}
      word="Save"
      said={problem ?? hint}
      isFaulty={problem !== null}
      submit={() => {
        if (problem !== null) return;
        finish();
        leave();
      }}
      giveUp={() => {
        cancel();
        leave();
      }}
      aria-label={label}
      value={typed}
      onChange={(event) => setTyped(event.target.value)}
      onBlur={(event) => {
        if (!event.currentTarget.form?.contains(event.relatedTarget)) finish();
      }}
    />
  );
}
