"use client";

import { type RefObject, useEffect, useRef, useState } from "react";

/**
 * Brings a line that has just come into sight, where its reader was at the end of the lines before it. Who reads
 * elsewhere is not taken away from there: then `unseen` has its number, until it has been seen.
 *
 * @param started how many lines there were when the card was opened, so that the first line counts as new too
 */
export function useNewLine(list: RefObject<HTMLElement | null>, shown: number, started: number) {
  const before = useRef(started);
  const [unseen, setUnseen] = useState<number | null>(null);
  const [newFrom, setNewFrom] = useState<number | null>(null);
  useEffect(() => {
    const last = before.current;
    before.current = shown;
    if (shown <= last) return setUnseen(null);
    setNewFrom(last + 1);
    const element = list.current;
    const isAtEnd = element !== null && isReadAtEnd(element, last);
    if (isAtEnd) bring(lineOf(element, shown));
    else setUnseen(last + 1);
  }, [list, shown]);
  useEffect(() => {
    const line = unseen !== null && list.current ? lineOf(list.current, unseen) : null;
    if (!line) return;
    const observer = new IntersectionObserver(([entry]) => entry?.isIntersecting && setUnseen(null), {
      threshold: 0.6,
    });
    observer.observe(line);
    return () => observer.disconnect();
  }, [list, unseen]);
  const goToUnseen = () => bring(unseen !== null && list.current ? lineOf(list.current, unseen) : null);
  return { unseen, newFrom, goToUnseen };
}

const lineOf = (list: HTMLElement, number: number) => list.querySelector<HTMLElement>(`[data-line="${number}"]`);

/** Whether the last line before the new ones, or where the first was to come, is in sight, and no line before it in focus. */
function isReadAtEnd(list: HTMLElement, last: number): boolean {
  const focused = document.activeElement?.closest<HTMLElement>("[data-line]");
  if (focused && list.contains(focused) && Number(focused.dataset.line) < last) return false;
  const { top, bottom } = (last > 0 ? lineOf(list, last) : null)?.getBoundingClientRect() ?? topOf(list);
  const frame = frameOf(list);
  return bottom > frame.top && top < frame.bottom && bottom <= frame.bottom + NEAR;
}

/** How far below the edge the end may be and still count as in sight, in pixels. */
const NEAR = 24;

function topOf(list: HTMLElement) {
  const { top } = list.getBoundingClientRect();
  return { top, bottom: top + 1 };
}

/** The part of the window in which a list scrolls. */
function frameOf(list: HTMLElement): { readonly top: number; readonly bottom: number } {
  for (let at = list.parentElement; at; at = at.parentElement) {
    const { overflowY } = getComputedStyle(at);
    if (overflowY !== "auto" && overflowY !== "scroll") continue;
    const box = at.getBoundingClientRect();
    return { top: Math.max(0, box.top), bottom: Math.min(window.innerHeight, box.bottom) };
  }
  return { top: 0, bottom: window.innerHeight };
}

function bring(line: HTMLElement | null): void {
  const isCalm = window.matchMedia("(prefers-reduced-motion: reduce)").matches;
  line?.scrollIntoView({ block: "nearest", behavior: isCalm ? "auto" : "smooth" });
}
