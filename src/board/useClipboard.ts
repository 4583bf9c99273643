"use client";

import { type RefObject, useEffect, useRef } from "react";
import { clipProblemText, type Point, readClip } from "../../shared/board";
import { clipboardText, storeClip } from "./clipboard";
import type { SelectionActions } from "./selectionActions";

type Input = {
  readonly pane: RefObject<HTMLElement | null>;
  readonly actions: SelectionActions;
  readonly isAnySelected: boolean;
  /** Where what is pasted is put, null for beside where it came from. */
  readonly pasteAt: Point | null;
  readonly say: (text: string) => void;
};

/** Copy, cut and paste by the browser's own commands while the board has the keyboard; returns paste for a button. */
export function useClipboard(input: Input): { readonly paste: () => void } {
  const latest = useRef(input);
  latest.current = input;
  useEffect(() => {
    const target = latest.current.pane.current;
    if (!target) return;
    const isForBoard = (event: ClipboardEvent) => event.target === target || document.activeElement === target;
    const onCopy = (event: ClipboardEvent) => {
      const { actions, isAnySelected } = latest.current;
      if (!isAnySelected || !isForBoard(event)) return;
      event.preventDefault();
      const text = actions.text();
      event.clipboardData?.setData("text/plain", text);
      storeClip(text);
      if (event.type === "cut") actions.remove();
    };
    const onPaste = (event: ClipboardEvent) => {
      if (!isForBoard(event)) return;
      event.preventDefault();
      pasteText(event.clipboardData?.getData("text/plain") ?? "", latest.current);
    };
    document.addEventListener("copy", onCopy);
    document.addEventListener("cut", onCopy);
    document.addEventListener("paste", onPaste);
    return () => {
      document.removeEventListener("copy", onCopy);
      document.removeEventListener("cut", onCopy);
      document.removeEventListener("paste", onPaste);
    };
  }, []);
  return { paste: () => void clipboardText().then((text) => pasteText(text, latest.current)) };
}

function pasteText(text: string, { actions, pasteAt, say }: Input): void {
  const reading = readClip(text);
  if (reading.ok) actions.paste(reading.clip, pasteAt);
  else say(clipProblemText(reading.problem));
}
