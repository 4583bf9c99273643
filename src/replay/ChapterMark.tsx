import type { ChapterSubject } from "../../shared/replay";
import { CHAPTER_MARKS } from "./chapterMarks";

type Props = { readonly code: ChapterSubject["code"]; readonly className?: string | undefined };

export function ChapterMark({ code, className }: Props) {
  return (
    <svg className={className} viewBox="0 0 12 12" aria-hidden="true" focusable="false">
      <path d={CHAPTER_MARKS[code]} fill="none" stroke="currentColor" strokeWidth="1.6" strokeLinejoin="round" />
    </svg>
  );
}
