"use client";

import { type KeyboardEvent, type PointerEvent, useState } from "react";
import {
  addPoints,
  type Board,
  type Command,
  type EntryId,
  type Point,
  readStretch,
  samePoint,
} from "../../shared/board";
import { unreachable } from "../../shared/quantity";
import { type Figure, type Spot, spotOf } from "../figure";
import { type Gesture, type GestureEvent, NO_GESTURE, type Outcome, stepGesture, type Tool } from "./gesture";
import { bodyAt, entryAt } from "./hit";
import type { PendingStretch } from "./overlay";
import { stretchedPart } from "./stretchPart";
import type { ViewportControl } from "./useViewport";
import { gridPointAt, toWorld } from "./viewport";

type Input = {
  readonly board: Board;
  readonly figure: Figure;
  readonly tool: Tool;
  readonly viewport: ViewportControl;
  readonly chosen: EntryId | null;
  readonly choose: (entry: EntryId | null) => void;
  readonly command: (command: Command) => void;
  readonly newId: () => EntryId;
};

/** How near, in pixels of the screen, a pointer must come to a line to mean it. */
const REACH = 9;
const TOUCH_REACH = 16;

/** Turns what a person does on the pane into gestures, and gestures into commands. */
export function useBoardInput(input: Input) {
  const { board, figure, tool, viewport, chosen, choose, command } = input;
  const [gesture, setGesture] = useState<Gesture>(NO_GESTURE);
  const [cursor, setCursor] = useState<Point | null>(null);
  const { field, ask } = useStretchField(input);

  const send = (event: GestureEvent) => {
    const step = stepGesture(gesture, event, tool);
    setGesture(step.gesture);
    perform(step.outcome, input, ask);
  };

  const press = (meaning: KeyMeaning) => {
    switch (meaning.do) {
      case "step": {
        const next = cursor ? addPoints(cursor, meaning.by) : firstCursor(viewport);
        setCursor(next);
        viewport.reveal(spotOf(next));
        if (gesture.kind !== "none") send({ type: "move", at: next });
        break;
      }
      case "enter":
        if (cursor) send({ type: "enter", at: cursor, entry: entryAt(board, figure, spotOf(cursor), REACH) });
        break;
      case "choose":
        if (cursor) choose(entryAt(board, figure, spotOf(cursor), REACH));
        break;
      case "giveUp":
        if (gesture.kind === "none") choose(null);
        send({ type: "cancel" });
        break;
      case "delete":
        if (chosen) command({ do: "delete", ids: [chosen] });
        choose(null);
        break;
      default:
        unreachable(meaning);
    }
  };
  const onKeyDown = (event: KeyboardEvent) => {
    const meaning = keyMeaning(event);
    if (!meaning) return;
    event.preventDefault();
    press(meaning);
  };
  const pointer = pointerInput(input, gesture, send, () => {
    setCursor(null);
    return field.done();
  });
  return { gesture, cursor, pointer, field, onKeyDown };
}

/** What the pointer does, as gestures. `begin` makes ready for a press, and says whether it may begin. */
function pointerInput(
  { board, figure, viewport }: Input,
  gesture: Gesture,
  send: (event: GestureEvent) => void,
  begin: () => boolean,
) {
  return {
    down: (event: PointerEvent, spot: Spot) => {
      if (!begin()) return;
      const hit = hitsAt(board, figure, viewport, spot, event.pointerType);
      send({ type: "down", at: gridPointAt(viewport.view, spot), ...hit });
    },
    move: (spot: Spot) => {
      if (gesture.kind === "none") return;
      const at = gridPointAt(viewport.view, spot);
      if (!samePoint(at, gesture.to)) send({ type: "move", at });
    },
    up: (event: PointerEvent, spot: Spot) => {
      const { body } = hitsAt(board, figure, viewport, spot, event.pointerType);
      send({ type: "up", at: gridPointAt(viewport.view, spot), body });
    },
    cancel: () => send({ type: "cancel" }),
  };
}

/** The field at a stretched line: whether it is open, what stands in it, and what comes of that. */
function useStretchField({ command, newId }: Input) {
  const [asked, setAsked] = useState<{ readonly from: Point; readonly to: Point; readonly text: string } | null>(null);
  const pending: PendingStretch | null = asked && { ...asked, reading: readStretch(asked.text) };
  const field = {
    pending,
    text: asked?.text ?? "",
    change: (text: string) => setAsked(asked && { ...asked, text }),
    /** Places what the field says; false where it says nothing that can be placed. */
    done: (): boolean => {
      if (!pending) return true;
      const { from, to, reading } = pending;
      if (reading.make === "nothing") return false;
      if (reading.make === "wire") command({ do: "placeWire", id: newId(), points: [from, to] });
      else command({ do: "placePart", id: newId(), part: stretchedPart(from, to, reading) });
      setAsked(null);
      return true;
    },
    cancel: () => setAsked(null),
  };
  return { field, ask: (from: Point, to: Point) => setAsked({ from, to, text: "" }) };
}

function perform(outcome: Outcome, input: Input, ask: (from: Point, to: Point) => void): void {
  const { board, choose, command, newId } = input;
  switch (outcome.do) {
    case "nothing":
      break;
    case "select":
      choose(outcome.entry);
      break;
    case "ask":
      choose(null);
      ask(outcome.from, outcome.to);
      break;
    case "wire":
      command({ do: "placeWire", id: newId(), points: outcome.points });
      break;
    case "reference":
      command(toggleReference(board, outcome.at, newId));
      break;
    case "move":
      command({ do: "move", ids: outcome.ids, by: outcome.by });
      break;
    default:
      unreachable(outcome);
  }
}

/** What a key means on the board; null for keys that are not the board's. */
type KeyMeaning =
  | { readonly do: "step"; readonly by: Point }
  | { readonly do: "enter" | "choose" | "giveUp" | "delete" };

function keyMeaning({ key, shiftKey }: KeyboardEvent): KeyMeaning | null {
  const by = ARROWS[key];
  if (by) return { do: "step", by: shiftKey ? { x: by.x * 4, y: by.y * 4 } : by };
  if (key === "Enter") return { do: "enter" };
  if (key === " ") return { do: "choose" };
  if (key === "Escape") return { do: "giveUp" };
  return key === "Delete" || key === "Backspace" ? { do: "delete" } : null;
}

function hitsAt(board: Board, figure: Figure, { view }: ViewportControl, spot: Spot, pointerType: string) {
  const world = toWorld(view, spot);
  const reach = (pointerType === "touch" ? TOUCH_REACH : REACH) / view.scale;
  return { body: bodyAt(figure, world, reach / 2), entry: entryAt(board, figure, world, reach) };
}

/** The cursor first shows at the middle of what is seen. */
function firstCursor({ view }: ViewportControl): Point {
  return gridPointAt(view, { x: view.x + 4 * 24 * view.scale, y: view.y + 4 * 24 * view.scale });
}

const ARROWS: Readonly<Record<string, Point>> = {
  ArrowLeft: { x: -1, y: 0 },
  ArrowRight: { x: 1, y: 0 },
  ArrowUp: { x: 0, y: -1 },
  ArrowDown: { x: 0, y: 1 },
};

/** A reference symbol goes where there is none, and is taken away where there is one. */
function toggleReference(board: Board, at: Point, newId: () => EntryId): Command {
  const there = board.references.find((symbol) => samePoint(symbol.at, at));
  return there ? { do: "delete", ids: [there.id] } : { do: "placeReference", id: newId(), at };
}
