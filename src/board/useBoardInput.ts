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
  const { board, figure, tool, viewport, chosen, choose, command, newId } = input;
  const [gesture, setGesture] = useState<Gesture>(NO_GESTURE);
  const [asked, setAsked] = useState<{ readonly from: Point; readonly to: Point; readonly text: string } | null>(null);
  const [cursor, setCursor] = useState<Point | null>(null);
  const pending: PendingStretch | null = asked && { ...asked, reading: readStretch(asked.text) };

  /** Places what the field says; false where it says nothing that can be placed. */
  const placePending = (): boolean => {
    if (!pending) return true;
    const { from, to, reading } = pending;
    if (reading.make === "nothing") return false;
    if (reading.make === "wire") command({ do: "placeWire", id: newId(), points: [from, to] });
    else command({ do: "placePart", id: newId(), part: stretchedPart(from, to, reading) });
    setAsked(null);
    return true;
  };

  const perform = (outcome: Outcome) => {
    switch (outcome.do) {
      case "nothing":
        return;
      case "select":
        return choose(outcome.entry);
      case "ask":
        choose(null);
        return setAsked({ from: outcome.from, to: outcome.to, text: "" });
      case "wire":
        return command({ do: "placeWire", id: newId(), points: outcome.points });
      case "reference":
        return command(toggleReference(board, outcome.at, newId));
      case "move":
        return command({ do: "move", ids: outcome.ids, by: outcome.by });
    }
  };

  const send = (event: GestureEvent) => {
    const step = stepGesture(gesture, event, tool);
    setGesture(step.gesture);
    perform(step.outcome);
  };

  const pointer = {
    down: (event: PointerEvent, spot: Spot) => {
      if (!placePending()) return;
      setCursor(null);
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

  const moveCursor = (by: Point) => {
    const next = cursor ? addPoints(cursor, by) : firstCursor(viewport);
    setCursor(next);
    viewport.reveal(spotOf(next));
    if (gesture.kind !== "none") send({ type: "move", at: next });
  };

  const onKeyDown = (event: KeyboardEvent) => {
    const by = ARROWS[event.key];
    if (by) moveCursor(event.shiftKey ? { x: by.x * 4, y: by.y * 4 } : by);
    else if (event.key === "Enter" && cursor) send(enterAt(cursor, board, figure));
    else if (event.key === " " && cursor) choose(entryAt(board, figure, spotOf(cursor), REACH));
    else if (event.key === "Escape") giveUp();
    else if ((event.key === "Delete" || event.key === "Backspace") && chosen) deleteChosen();
    else return;
    event.preventDefault();
  };
  const giveUp = () => {
    if (gesture.kind === "none") choose(null);
    send({ type: "cancel" });
  };
  const deleteChosen = () => {
    if (chosen) command({ do: "delete", ids: [chosen] });
    choose(null);
  };

  const field = {
    pending,
    text: asked?.text ?? "",
    change: (text: string) => setAsked(asked && { ...asked, text }),
    done: placePending,
    cancel: () => setAsked(null),
  };
  return { gesture, cursor, pointer, field, onKeyDown };
}

function hitsAt(board: Board, figure: Figure, { view }: ViewportControl, spot: Spot, pointerType: string) {
  const world = toWorld(view, spot);
  const reach = (pointerType === "touch" ? TOUCH_REACH : REACH) / view.scale;
  return { body: bodyAt(figure, world, reach / 2), entry: entryAt(board, figure, world, reach) };
}

function enterAt(at: Point, board: Board, figure: Figure): GestureEvent {
  return { type: "enter", at, entry: entryAt(board, figure, spotOf(at), REACH) };
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
