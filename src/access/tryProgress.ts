import type { TryProgress } from "../../shared/messages";

/** `2 of 4 right, last changed at 14:05`. */
export function progressText({ right, cards, changedAt }: TryProgress, now: Date): string {
  const time = new Date(changedAt);
  const isToday = time.toDateString() === now.toDateString();
  const when = isToday
    ? `at ${time.toLocaleTimeString([], { hour: "2-digit", minute: "2-digit" })}`
    : `on ${time.toLocaleDateString([], { day: "numeric", month: "long" })}`;
  const far = cards === 0 ? "nothing to enter" : `${right} of ${cards} right`;
  return changedAt === 0 ? far : `${far}, last changed ${when}`;
}
