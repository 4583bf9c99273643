import type { You } from "./api";

/** What `POST /api/rooms/<room>/try` gives: the room in which whoever asks tries that room's problem alone. */
export type TryOpened = { readonly room: string };

/** How far a try was when that was noted last. */
export type TryProgress = {
  /** Cards whose right value was entered, of all cards that have one. */
  readonly right: number;
  readonly cards: number;
  /** When something was last drawn or entered, in milliseconds since 1970. */
  readonly changedAt: number;
};

/** One of `GET /api/rooms/<room>/tries`, for instructors. */
export type TryListed = {
  readonly room: string;
  readonly owner: Pick<You, "id" | "name">;
  /** Null before anything was noted. */
  readonly progress: TryProgress | null;
};

/** What `GET /api/rooms/<room>/tries/<try>` gives to those who may see the try. */
export type TryGlance = { readonly room: string; readonly owner: Pick<You, "id" | "name"> };

/** Whose try a room is, as its people are told. */
export type TryOf = {
  /** The room whose problem is tried. */
  readonly room: string;
  /** Participant who tries it, and their name in that room. */
  readonly owner: string;
  readonly ownerName: string;
};
