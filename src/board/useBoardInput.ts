"use client";

import { type KeyboardEvent, type RefObject, useState } from "react";
import { addPoints, type Board, type Command, type EntryId, type Point } from "../../shared/board";
import { type Figure, type Spot, spotOf } from "../figure";
import { type Gesture, type GestureEvent, NO_GESTURE, type Place } from "./gesture";
import { bodyAt, entryAt, isJoinAt, REACH } from "./hit";
import { type KeyMeaning, keyMeaning } from "./keys";
import { performer } from "./outcomes";
import { pointerInput } from "./pointerInput";
import { allEntries, nextPart, onlyOf } from "./selection";
import { selectionActions } from "./selectionActions";
import { stepGesture } from "./stepGesture";
import { turnedBlock } from "./tool";
import type { BoardTools } from "./useBoardTools";
import { useClipboard } from "./useClipboard";
import { type Editing, editingOf, useNameField, useStretchField } from "./useFields";
import type { ViewportControl } from "./useViewport";
import { gridPointAt } from "./viewport";

export type BoardInput = {
  readonly pane: RefObject<HTMLElement | null>;
  readonly board: Board;
  readonly figure: Figure;
  readonly tools: BoardTools;
  readonly viewport: ViewportControl;
  readonly command: (command: Command) => void;
  readonly newId: () => EntryId;
};

/** Turns what a person does on the pane into gestures, and gestures into commands. */
export function useBoardInput(input: BoardInput) {
  const { board, tools, viewport } = input;
  const [gesture, setGesture] = useState<Gesture>(NO_GESTURE);
  const [cursor, setCursor] = useState<Point | null>(null);
  const [hover, setHover] = useState<Point | null>(null);
  const [editing, setEditing] = useState<Editing | null>(null);
  const [said, say] = useState("");
  const { field, ask } = useStretchField(input);
  const nameField = useNameField(input);
  const actions = selectionActions({ ...input, selection: tools.selection, select: tools.select, say });
  const { paste } = useClipboard({
    pane: input.pane,
    actions,
    isAnySelected: tools.selection.size > 0,
    pasteAt: cursor ?? hover,
    say,
  });
  const perform = performer({ ...input, actions, say, ask, askName: nameField.ask });
  const send = (event: GestureEvent) => {
    const step = stepGesture(gesture, event, tools.tool);
    setGesture(step.gesture);
    if (step.outcome.do !== "nothing") perform(step.outcome);
  };
  const edit = (entry: EntryId, wanted: Editing["field"]) => setEditing(editingOf(board, entry, wanted));
  const doers = { input, gesture, cursor, setCursor, send, edit, actions };
  const pointer = pointerInput(input, gesture, send, {
    begin: () => {
      setCursor(null);
      say("");
      return field.done();
    },
    hover: setHover,
    edit: (entry) => edit(entry, "value"),
  });
  const onKeyDown = (event: KeyboardEvent) => {
    const meaning = keyMeaning(event);
    if (!meaning) return;
    event.preventDefault();
    press(meaning, doers);
  };
  return {
    gesture,
    cursor,
    hover,
    pointer,
    field,
    nameField,
    editing: { of: editing, edit, stop: () => setEditing(null) },
    said,
    actions: {
      ...actions,
      paste,
      /** Takes the selection in hand: it goes where the next click or Enter is. */
      pickUp: () => {
        const from = actions.about();
        if (from) setGesture({ kind: "move", from, to: from, pressed: null, isHeld: false });
      },
    },
    send,
    /** Ends a pick of two points at the reference node. */
    pickReference: () => {
      const [symbol] = board.references;
      if (gesture.kind !== "pick" || !symbol) return;
      setGesture(NO_GESTURE);
      perform({ do: "pick", across: { by: "points", from: gesture.from, to: symbol.at } });
    },
    giveUp: () => press({ do: "giveUp" }, doers),
    onKeyDown,
    reveal: viewport.reveal,
  };
}

type Doers = {
  readonly input: BoardInput;
  readonly gesture: Gesture;
  readonly cursor: Point | null;
  readonly setCursor: (cursor: Point | null) => void;
  readonly send: (event: GestureEvent) => void;
  readonly edit: (entry: EntryId, wanted: Editing["field"]) => void;
  readonly actions: ReturnType<typeof selectionActions>;
};

/** Does what a key means. */
function press(meaning: KeyMeaning, doers: Doers): void {
  const { input, cursor, send, actions } = doers;
  const { board, tools, viewport } = input;
  const only = onlyOf(tools.selection);
  switch (meaning.do) {
    case "step":
      step(meaning.by, meaning.isRing, doers);
      return;
    case "enter":
      enter(doers);
      return;
    case "choose":
      if (cursor) {
        const { entry } = placeAt(input, cursor);
        if (entry && meaning.isAdding) tools.select(new Set([...tools.selection, entry]));
        else tools.choose(entry);
      }
      return;
    case "next": {
      const part = nextPart(board, cursor, meaning.by);
      if (part) moveRing(part.at, doers);
      return;
    }
    case "giveUp":
      giveUp(doers);
      return;
    case "delete":
      if (tools.selection.size > 0) actions.remove();
      return;
    case "duplicate":
      if (tools.selection.size > 0) actions.duplicate();
      return;
    case "all":
      tools.select(allEntries(board));
      return;
    case "rename":
      if (only) doers.edit(only, "name");
      return;
    case "turn":
    case "mirror":
      if (tools.tool.do === "block") tools.setTool(turnedBlock(tools.tool, meaning.do));
      else if (tools.selection.size > 0) actions[meaning.do]();
      return;
    case "flip":
      send({ type: "flip" });
      return;
    case "help":
      tools.openSheet("keys");
      return;
    case "zoom":
      viewport.zoom(meaning.factor);
      return;
    case "fit":
      viewport.fit();
      return;
    case "scroll":
      viewport.pan(meaning.dx, meaning.dy);
      return;
  }
}

/** Moves the selection in the Select tool, else the ring. */
function step(by: Point, isRing: boolean, doers: Doers): void {
  const { gesture, cursor, actions, input } = doers;
  const { tool, selection } = input.tools;
  if (tool.do === "select" && gesture.kind === "none" && selection.size > 0 && !isRing) {
    actions.move(by);
    return;
  }
  const start = cursor ?? (gesture.kind === "move" ? gesture.to : null);
  moveRing(start ? addPoints(start, by) : firstCursor(input.viewport), doers);
}

function moveRing(to: Point, { gesture, setCursor, send, input }: Doers): void {
  setCursor(to);
  input.viewport.reveal(spotOf(to));
  if (gesture.kind !== "none") send({ type: "move", at: to, spot: spotOf(to) });
}

function enter(doers: Doers): void {
  const { input, gesture, cursor, send } = doers;
  const { tool, selection } = input.tools;
  const only = onlyOf(selection);
  if (tool.do === "select" && gesture.kind === "none" && only) {
    doers.edit(only, "value");
    return;
  }
  if (cursor) send({ type: "enter", ...placeAt(input, cursor) });
}

/** Escape backs out one step: of a gesture, of a tool for a single use, of a selection. */
function giveUp({ gesture, input, cursor, setCursor, send }: Doers): void {
  const { tool, selection, choose, putDown } = input.tools;
  if (gesture.kind !== "none") {
    send({ type: "cancel" });
    return;
  }
  if (tool.do !== "stretch" && tool.do !== "select" && tool.do !== "wire") {
    putDown();
    return;
  }
  if (selection.size > 0) {
    choose(null);
    return;
  }
  if (cursor) setCursor(null);
}

function placeAt({ board, figure }: BoardInput, at: Point): Place {
  const spot: Spot = spotOf(at);
  const entry = entryAt(board, figure, spot, REACH);
  return { at, spot, entry, body: bodyAt(figure, spot, 0), isJoin: isJoinAt(board, at) };
}

/** The ring first shows near the upper left corner of what is seen. */
function firstCursor({ view }: ViewportControl): Point {
  return gridPointAt(view, { x: view.x + 4 * 24 * view.scale, y: view.y + 4 * 24 * view.scale });
}
