import type { ChapterSubject } from "../../shared/replay";

/** The mark of each kind of chapter, as path data in a 12 × 12 square, to be stroked: told apart by shape, not by colour. */
export const CHAPTER_MARKS: Readonly<Record<ChapterSubject["code"], string>> = {
  solved: "M2 4.5H10M2 7.5H10",
  opened: "M2.5 2.5H9.5V9.5H2.5Z",
  wrong: "M2.5 2.5L9.5 9.5M9.5 2.5L2.5 9.5",
  mended: "M2 6.5L5 9.5L10.5 2.5",
  revealed: "M1 6C3.5 2.2 8.5 2.2 11 6C8.5 9.8 3.5 9.8 1 6ZM6 5A1 1 0 0 1 6 7A1 1 0 0 1 6 5Z",
  added: "M3 11V1.5H10L8 4L10 6.5H3",
};

/** What a mark means, in words. */
export const CHAPTER_KINDS: Readonly<Record<ChapterSubject["code"], string>> = {
  solved: "solved",
  opened: "opened",
  wrong: "wrong line",
  mended: "mended",
  revealed: "shown",
  added: "added",
};
