import type { RefObject } from "react";
import { toScreen, type Viewport } from "../board";
import { GRID, type Spot } from "../figure";
import { CursorMark, placeCursor } from "./CursorMark";
import type { Person } from "./people";

/** What people's pointers are drawn from, wherever they stand. */
export type PointersSeen = {
  readonly people: readonly Person[];
  readonly view: Viewport;
  /** Width of the pane in pixels. */
  readonly width: number;
  /** Key of the card that is open here. */
  readonly card: string;
  readonly cardTitle: (key: string) => string;
  readonly shade: (person: Person) => string;
};

type Props = Omit<PointersSeen, "view" | "width"> & {
  /** Gets the mark of each, by client, to be put where its pointer is by {@link placePointer}. */
  readonly elements: RefObject<Map<number, HTMLElement>>;
  readonly className: string;
};

/** People's pointers, each with sign and name. */
export function PointerMarks({ elements, className, people, card, cardTitle, shade }: Props) {
  return (
    <div className={className} aria-hidden="true">
      {people.map((person) => (
        <CursorMark
          key={person.client}
          ref={(element) => {
            if (element) elements.current.set(person.client, element);
            else elements.current.delete(person.client);
          }}
          person={person}
          colour={shade(person)}
          elsewhere={person.card === card ? null : cardTitle(person.card)}
        />
      ))}
    </div>
  );
}

/** Puts a mark at a spot of the drawing, in grid steps, or puts it away. */
export function placePointer(
  element: HTMLElement,
  at: Spot | null,
  { view, width }: Pick<PointersSeen, "view" | "width">,
): void {
  placeCursor(element, at && toScreen(view, { x: at.x * GRID, y: at.y * GRID }), width);
}
