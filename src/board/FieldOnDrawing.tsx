import { type ComponentProps, type CSSProperties, type KeyboardEvent, useId } from "react";
import styles from "./board.module.css";

type Props = Omit<ComponentProps<"input">, "style" | "onSubmit"> & {
  readonly place: CSSProperties;
  /** The word on its button. */
  readonly word: string;
  /** What is said below it: what to type, or why that cannot stand. */
  readonly said: string;
  readonly isFaulty: boolean;
  readonly submit: () => void;
  /** Gives up, and the keyboard goes back to the board. */
  readonly giveUp: () => void;
};

/** A field that lies on the drawing. Enter submits it, Escape gives up. */
export function FieldOnDrawing({ place, word, said, isFaulty, submit, giveUp, ...input }: Props) {
  const note = useId();
  const onKeyDown = (event: KeyboardEvent) => {
    event.stopPropagation(); // the board's own keys rest while somebody types
    if (event.key === "Escape") giveUp();
  };
  return (
    <form
      className={styles.stretch}
      style={place}
      onPointerDown={(event) => event.stopPropagation()}
      onSubmit={(event) => {
        event.preventDefault();
        submit();
      }}
    >
      <input
        className={styles.stretchInput}
        aria-describedby={note}
        aria-invalid={isFaulty}
        autoComplete="off"
        spellCheck={false}
        onKeyDown={onKeyDown}
        {...input}
      />
      <button className={styles.stretchDone} type="submit">
        {word}
      </button>
      <output id={note} className={isFaulty ? styles.stretchFault : styles.stretchNote}>
        {said}
      </output>
    </form>
  );
}
