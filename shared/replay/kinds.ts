/**
 * Kinds of entries by the number under which they travel, counted from 1. New ones are added at the end; one that is not
 * here travels by its name.
 */
export const KINDS = [
  "update",
  "settings",
  "reveal",
  "lines",
  "try",
  "join",
  "leave",
  "call",
  "look",
  "pointers",
  "solved",
  "chapter",
  "help",
  "reason",
  "question",
] as const;
export type KnownKind = (typeof KINDS)[number];

/** Number of a kind, 0 for one that has none. */
export function numberOfKind(kind: string): number {
  return (KINDS as readonly string[]).indexOf(kind) + 1;
}

/** The kind of a number; null where there is none. */
export function kindOfNumber(number: number): KnownKind | null {
  return KINDS[number - 1] ?? null;
}
