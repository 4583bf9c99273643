import type { Point } from "../../shared/board";

/** What a key means on the board. */
export type KeyMeaning =
  /** An arrow: moves the selection in the Select tool, else the ring. `isRing` asks for the ring in any case. */
  | { readonly do: "step"; readonly by: Point; readonly isRing: boolean }
  | {
      readonly do: "enter" | "giveUp" | "delete" | "duplicate" | "all" | "rename" | "turn" | "mirror" | "flip" | "help";
    }
  /** Space: chooses what lies at the ring. */
  | { readonly do: "choose"; readonly isAdding: boolean }
  | { readonly do: "next"; readonly by: 1 | -1 }
  | { readonly do: "zoom"; readonly factor: number }
  | { readonly do: "fit" }
  | { readonly do: "scroll"; readonly dx: number; readonly dy: number };

type Key = {
  readonly key: string;
  readonly shiftKey: boolean;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
  readonly altKey: boolean;
};

const ARROWS: Readonly<Record<string, Point>> = {
  ArrowLeft: { x: -1, y: 0 },
  ArrowRight: { x: 1, y: 0 },
  ArrowUp: { x: 0, y: -1 },
  ArrowDown: { x: 0, y: 1 },
};
/** Steps of an arrow key with Shift. */
const LEAP = 4;
/** Pixels that a page key scrolls. */
const PAGE = 240;
export const ZOOM_STEP = 1.25;

/** What a key means on the board; null for keys that are not the board's. */
export function keyMeaning({ key, shiftKey, ctrlKey, metaKey, altKey }: Key): KeyMeaning | null {
  if (altKey) return null;
  const isCommand = ctrlKey || metaKey;
  const arrow = ARROWS[key];
  if (arrow) {
    const by = shiftKey ? { x: arrow.x * LEAP, y: arrow.y * LEAP } : arrow;
    return { do: "step", by, isRing: isCommand };
  }
  if (isCommand) return commandKey(key);
  switch (key) {
    case "Enter":
      return { do: "enter" };
    case " ":
      return { do: "choose", isAdding: shiftKey };
    case "Escape":
      return { do: "giveUp" };
    case "Delete":
    case "Backspace":
      return { do: "delete" };
    case "F2":
      return { do: "rename" };
    case "+":
    case "=":
      return { do: "zoom", factor: ZOOM_STEP };
    case "-":
    case "−":
      return { do: "zoom", factor: 1 / ZOOM_STEP };
    case "0":
      return { do: "fit" };
    case "?":
      return { do: "help" };
    case "PageUp":
      return scrollKey(1, shiftKey);
    case "PageDown":
      return scrollKey(-1, shiftKey);
    default:
      return letterKey(key.toLowerCase(), shiftKey);
  }
}

function commandKey(key: string): KeyMeaning | null {
  if (key.toLowerCase() === "d") return { do: "duplicate" };
  return key.toLowerCase() === "a" ? { do: "all" } : null;
}

function scrollKey(way: 1 | -1, isSideways: boolean): KeyMeaning {
  return { do: "scroll", dx: isSideways ? way * PAGE : 0, dy: isSideways ? 0 : way * PAGE };
}

function letterKey(key: string, shiftKey: boolean): KeyMeaning | null {
  if (key === "t") return { do: "turn" };
  if (key === "m") return { do: "mirror" };
  if (key === "b") return { do: "flip" };
  return key === "n" ? { do: "next", by: shiftKey ? -1 : 1 } : null;
}

/** The keys as the sheet of keys lists them. */
export const KEY_LIST: readonly { readonly keys: string; readonly what: string }[] = [
  { keys: "Arrow keys", what: "Move the ring by one grid step; with Select and something selected, move that" },
  { keys: "Shift + arrow", what: "Four steps at once" },
  { keys: "Ctrl + arrow", what: "Move the ring, whatever is selected" },
  { keys: "Enter", what: "Start and end a line, add a corner, place, pick; with Select, edit the value" },
  { keys: "Space", what: "Choose what lies at the ring; with Shift, add it to the selection" },
  { keys: "N, Shift + N", what: "Take the ring to the next or the previous part" },
  { keys: "F2", what: "Rename the chosen part" },
  { keys: "T, M", what: "Turn or mirror what is selected or being placed" },
  { keys: "B", what: "Bend a wire the other way" },
  { keys: "Delete", what: "Delete what is selected" },
  { keys: "Ctrl + C, X, V, D", what: "Copy, cut, paste, duplicate" },
  { keys: "Ctrl + A", what: "Select everything" },
  { keys: "Ctrl + Z, Ctrl + Shift + Z", what: "Undo and redo what you did yourself" },
  { keys: "+, −, 0", what: "Larger, smaller, fit all of it" },
  { keys: "Page Up, Page Down", what: "Scroll; with Shift, sideways" },
  { keys: "Esc", what: "Back out one step" },
  { keys: "?", what: "This list" },
];
