import type { EntryId } from "./board";
import type { InkSpot } from "./inkSpot";
import type { BoardProblem } from "./problem";

/** Inks by name; each paper has a shade of its own for every one of them. */
export type InkColour = "ink" | "brown" | "violet" | "moss" | "brick" | "sea";
export const INK_COLOURS: readonly InkColour[] = ["ink", "brown", "violet", "moss", "brick", "sea"];

/** Longest note, in characters. */
export const NOTE_LIMIT = 500;

/** What all marks have: the sources of the addend on which the mark lies, none where it is seen on every card. */
type MarkBase = { readonly id: EntryId; readonly colour: InkColour; readonly card: readonly EntryId[] };

/** A line drawn by hand. A highlighter's is broad and lies beneath the circuit. */
export type InkStroke = MarkBase & { readonly kind: "pen" | "highlighter"; readonly spots: readonly InkSpot[] };
/** `to` is where its head is. */
export type InkArrow = MarkBase & { readonly kind: "arrow"; readonly from: InkSpot; readonly to: InkSpot };
/** Words, with mathematics between dollar signs; `at` is the upper left corner. */
export type InkNote = MarkBase & { readonly kind: "note"; readonly at: InkSpot; readonly text: string };
/** One mark that somebody made on the board. Marks say nothing about the circuit. */
export type InkMark = InkStroke | InkArrow | InkNote;

/** All marks in the order in which they were made (that of their ids), and what could not be read. */
export type Ink = { readonly marks: readonly InkMark[]; readonly problems: readonly BoardProblem[] };

export const NO_INK: Ink = { marks: [], problems: [] };

/**
 * What people do to ink. Like all commands these do nothing to marks that are gone. Spots are rounded to what ink can
 * lie on; a stroke of more than STROKE_LIMIT spots or a note that is blank or too long is a defect of the caller.
 */
export type InkCommand =
  | ({ readonly do: "placeStroke" } & InkStroke)
  | ({ readonly do: "placeArrow" } & Omit<InkArrow, "kind">)
  | ({ readonly do: "placeNote" } & Omit<InkNote, "kind">)
  | { readonly do: "editNote"; readonly id: EntryId; readonly text: string }
  | { readonly do: "moveInk"; readonly ids: readonly EntryId[]; readonly by: InkSpot }
  | { readonly do: "eraseInk"; readonly ids: readonly EntryId[] };

/** Whether a text can stand as a note. */
export function isNoteText(text: unknown): text is string {
  return typeof text === "string" && text.trim() !== "" && text.length <= NOTE_LIMIT;
}

/** Whether a mark is seen while an addend of these sources is open; null stands for the board with all sources. */
export function isSeenOn(mark: InkMark, sources: readonly EntryId[] | null): boolean {
  if (mark.card.length === 0) return true;
  return sources !== null && sources.length === mark.card.length && sources.every((id) => mark.card.includes(id));
}
