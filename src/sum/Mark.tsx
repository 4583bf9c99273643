import styles from "./entry.module.css";

/** What a mark says of something that was entered. */
export type EntryMark = keyof typeof MARKS;

/** A mark that is told by its shape, whatever its colour. */
export function Mark({ mark }: { readonly mark: EntryMark }) {
  return (
    <svg className={styles.mark} data-mark={mark} viewBox="0 0 16 16" aria-hidden="true" focusable="false">
      <path d={MARKS[mark]} />
    </svg>
  );
}

/**
 * A tick, a cross, an arrow for what follows from another mistake, a ring for what is true and says nothing, a pencil's
 * dots, and a stroke for what is out of date.
 */
const MARKS = {
  right: "M2.5 8.5 L6.5 12.5 L13.5 3.5",
  wrong: "M3.5 3.5 L12.5 12.5 M12.5 3.5 L3.5 12.5",
  follows: "M2.5 8 H13 M9 4 L13 8 L9 12",
  empty: "M8 3 A5 5 0 1 1 7.99 3 Z",
  entered: "M3 8 H3.1 M8 8 H8.1 M13 8 H13.1",
  outdated: "M3 8 H13",
};
