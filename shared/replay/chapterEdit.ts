import { number, text } from "./fields";

/** What an instructor does to the chapters of a replay. Chapters found by themselves can be renamed and removed as well. */
export type ChapterEdit =
  /** `at` is the sequence of the entry at which it begins. */
  | { readonly do: "add"; readonly id: string; readonly at: number; readonly title: string }
  | { readonly do: "rename"; readonly id: string; readonly title: string }
  | { readonly do: "remove"; readonly id: string };

/** Longest title of a chapter, in UTF-16 units. */
export const CHAPTER_TITLE_LENGTH = 120;

/** Reads the JSON value of an edit; null for anything else. */
export function readChapterEdit(fields: Readonly<Record<string, unknown>>): ChapterEdit | null {
  const [id, title, at] = [text(fields.id), text(fields.title), number(fields.at)];
  if (id === null) return null;
  switch (fields.do) {
    case "add":
      return title === null || at === null ? null : { do: "add", id, at, title };
    case "rename":
      return title === null ? null : { do: "rename", id, title };
    case "remove":
      return { do: "remove", id };
    default:
      return null;
  }
}
