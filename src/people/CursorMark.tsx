import type { Ref } from "react";
import type { Spot } from "../figure";
import type { Person } from "./people";
import styles from "./people.module.css";

type Props = {
  readonly ref: Ref<HTMLElement>;
  readonly person: Pick<Person, "name" | "mark">;
  readonly colour: string;
  /** Title of the card that they look at; null where it is the one that is open here. */
  readonly elsewhere: string | null;
};

/** Somebody's pointer, with sign and name. It is placed by {@link placeCursor}. */
export function CursorMark({ ref, person: { name, mark }, colour, elsewhere }: Props) {
  return (
    <span ref={ref} className={styles.cursor} data-cursor={name} style={{ color: colour }}>
      <svg viewBox="-1 -1 18 18" focusable="false" aria-hidden="true">
        <path d="M0 0L15 6.5L9.5 8.6L13 15.2L10 16.6L6.6 10L2.6 13.6Z" />
      </svg>
      <b>
        {mark.sign} {name}
        {elsewhere !== null && <small> {elsewhere}</small>}
      </b>
    </span>
  );
}

/** How much room, in pixels, a name takes beside its pointer. */
const NAME_ROOM = 130;

/** Puts a pointer at a spot of its pane, in pixels, or puts it away; `width` is the pane's. */
export function placeCursor(element: HTMLElement, spot: Spot | null, width: number): void {
  element.style.visibility = spot ? "visible" : "hidden";
  if (!spot) return;
  // Near the right edge a name goes to the left of its pointer, and so stays on the pane.
  element.dataset.side = spot.x > width - NAME_ROOM ? "left" : "right";
  element.style.transform = `translate(${spot.x}px, ${spot.y}px)`;
}
