import type { Drawers } from "./roomState";
import type { LineCount } from "./shownLines";
import type { TryAction } from "./tries";
import type { Trying } from "./trying";

/** What the instructor looks at, for others to look at too. `center` is in grid units, `scale` in screen pixels of a wide page per CSS pixel of the unzoomed board. */
export type RoomView = {
  readonly card: string;
  /** Entry of the wanted quantity in focus. */
  readonly wanted: string | null;
  readonly center: readonly [x: number, y: number];
  readonly scale: number;
};

/**
 * What a participant asks of the room. All but what is said of oneself (a new name, whether it is kept), what is about tries,
 * and beginning one's own try again is the instructor's alone.
 */
export type RoomAction =
  | { readonly do: "setDrawing"; readonly who: Drawers }
  | { readonly do: "setMayDraw"; readonly participant: string; readonly may: boolean }
  /** All cards at once; forgets what was said of single ones. */
  | { readonly do: "setAnswers"; readonly shown: boolean }
  | { readonly do: "setShown"; readonly card: string; readonly shown: boolean }
  /** How many lines of a card's working are shown. A line that tells a hidden answer shows that answer too. */
  | { readonly do: "showLines"; readonly wanted: string; readonly card: string; readonly lines: LineCount }
  /** All lines of all cards, with all answers, or none; forgets what was said of single ones. */
  | { readonly do: "showAllLines"; readonly shown: boolean }
  /** What is not named stays as it is. */
  | { readonly do: "setTrying"; readonly trying: Partial<Trying> }
  | { readonly do: "renameParticipant"; readonly participant: string; readonly name: string }
  | { readonly do: "removeParticipant"; readonly participant: string }
  /** Whether replays may call oneself by name, from the room's beginning on. */
  | { readonly do: "keepName"; readonly keep: boolean }
  | { readonly do: "lock"; readonly locked: boolean }
  | { readonly do: "end" }
  | { readonly do: "comeToMe"; readonly view: RoomView }
  /** Puts the board of the room whose problem is tried in the place of the try's own. */
  | { readonly do: "beginAgain" }
  | TryAction;

/** `id` is the page's own, and comes back where the request is refused. */
export type RoomRequest = { readonly id: number } & RoomAction;

/** "Come to me", as everybody else is sent it. */
export type Call = { readonly from: string; readonly view: RoomView };
