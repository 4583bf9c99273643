import { type EntryId, type Point, samePoint } from "../../shared/board";
import type { Spot } from "../figure";
import type { Gesture, GestureEvent, Place } from "./gesture";
import { bodyAt, entryAt, isJoinAt, REACH, TOUCH_REACH } from "./hit";
import type { BoardInput } from "./useBoardInput";
import { gridPointAt, toWorld } from "./viewport";

/** How a press was made. */
export type PressWays = { readonly pointerType: string; readonly shiftKey: boolean };

export type PointerSpot = {
  readonly down: (event: PressWays, spot: Spot) => void;
  readonly move: (spot: Spot) => void;
  readonly up: (event: PressWays, spot: Spot) => void;
  readonly leave: () => void;
  readonly cancel: () => void;
  readonly doubleClick: (spot: Spot) => void;
};

type Doers = {
  /** Makes ready for a press, and says whether it may begin. */
  readonly begin: () => boolean;
  readonly hover: (at: Point | null) => void;
  readonly edit: (entry: EntryId) => void;
};

/** What the pointer does on the pane, as gestures. Spots are in pixels of the pane. */
export function pointerInput(
  input: BoardInput,
  gesture: Gesture,
  send: (event: GestureEvent) => void,
  doers: Doers,
): PointerSpot {
  const { viewport, tools } = input;
  let hovered: Point | null = null;
  return {
    down: (event, spot) => {
      if (!doers.begin()) return;
      const place = placeAt(input, spot, event.pointerType);
      const isChosen = place.entry !== null && tools.selection.has(place.entry);
      send({ type: "down", ...place, isAdding: event.shiftKey, isChosen });
    },
    move: (spot) => {
      const at = gridPointAt(viewport.view, spot);
      if (!hovered || !samePoint(hovered, at)) {
        hovered = at;
        doers.hover(at);
      }
      if (gesture.kind === "none") return;
      if (gesture.kind === "box" || !samePoint(at, gesture.to)) {
        send({ type: "move", at, spot: toWorld(viewport.view, spot) });
      }
    },
    up: (event, spot) => {
      send({ type: "up", ...placeAt(input, spot, event.pointerType), isAdding: event.shiftKey });
    },
    leave: () => doers.hover(null),
    cancel: () => send({ type: "cancel" }),
    doubleClick: (spot) => {
      const { body } = placeAt(input, spot, "mouse");
      const { tool } = tools;
      if (body && (tool.do === "stretch" || tool.do === "select")) doers.edit(body);
    },
  };
}

function placeAt({ board, figure, viewport: { view } }: BoardInput, spot: Spot, pointerType: string): Place {
  const world = toWorld(view, spot);
  const reach = (pointerType === "touch" ? TOUCH_REACH : REACH) / view.scale;
  const at = gridPointAt(view, spot);
  return {
    at,
    spot: world,
    body: bodyAt(figure, world, reach / 2),
    entry: entryAt(board, figure, world, reach),
    isJoin: isJoinAt(board, at),
  };
}
