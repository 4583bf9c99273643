import type { KeyboardEvent } from "react";

/** Lets the arrow keys, Home and End go from one to the next of the elements that match a selector. */
export function moveAlong(event: KeyboardEvent<HTMLElement>, selector: string): void {
  const stops = [...event.currentTarget.querySelectorAll<HTMLElement>(selector)];
  const at = stops.indexOf(event.target as HTMLElement);
  const to = {
    ArrowRight: at + 1,
    ArrowDown: at + 1,
    ArrowLeft: at - 1,
    ArrowUp: at - 1,
    Home: 0,
    End: stops.length - 1,
  }[event.key];
  if (at < 0 || to === undefined) return;
  event.preventDefault();
  stops[to]?.focus();
}
