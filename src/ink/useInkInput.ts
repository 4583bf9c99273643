"use client";

import { type KeyboardEvent, useEffect, useRef, useState } from "react";
import {
  type Command,
  type EntryId,
  type InkColour,
  type InkMark,
  type InkNote,
  type InkSpot,
  simplifySpots,
  strokePieces,
} from "../../shared/board";
import { unreachable } from "../../shared/quantity";
import { toWorld, type ViewportControl } from "../board";
import { GRID, type Spot } from "../figure";
import { type LiveStroke, type Presence, strokeTail } from "../people";
import { type InkEvent, type InkGesture, type InkOutcome, NO_INK_GESTURE, stepInk } from "./inkGesture";
import { markAt } from "./inkHit";
import type { InkTool } from "./inkTool";

export type InkInput = {
  readonly tool: InkTool | null;
  readonly leave: () => void;
  readonly colour: InkColour;
  /** Sources of the addend that new marks lie on; none for marks that are seen on every card. */
  readonly card: readonly EntryId[];
  /** The marks that are seen. */
  readonly marks: readonly InkMark[];
  readonly viewport: ViewportControl;
  readonly command: (command: Command) => void;
  readonly newId: () => EntryId;
  readonly show: (shown: Partial<Presence>) => void;
};

/** Words that are being written: those of a note, or new ones. */
export type Writing = { readonly at: InkSpot; readonly note: InkNote | null };

/**
 * What is under way, for the painter of live ink; it changes without React's knowing. `pointed` is where this page's
 * person has pointed since it was last painted.
 */
export type InkInProgress = {
  gesture: InkGesture;
  ring: InkSpot | null;
  stroke: LiveStroke | null;
  pointed: InkSpot[];
};

/** How near, in pixels of the screen, a pointer must come to a mark to mean it. */
const REACH = 9;
/** How far a placed stroke may stray from the drawn one, in pixels of the screen and, at the least, in grid steps. */
const STRAY = 0.45;
const LEAST_STRAY = 0.008;

/** Turns what a person does on the ink sheet into gestures, and gestures into commands. */
export function useInkInput(input: InkInput, redraw: () => void) {
  const { tool, viewport, marks, show } = input;
  const progress = useRef<InkInProgress>(atRest());
  const [ring, setRing] = useState<InkSpot | null>(null);
  const [writing, setWriting] = useState<Writing | null>(null);
  const sent = useRef(0);

  const spotAt = (spot: Spot): InkSpot => {
    const world = toWorld(viewport.view, spot);
    return { x: world.x / GRID, y: world.y / GRID };
  };
  const reachOf = (isTouch: boolean) => (isTouch ? REACH * 1.8 : REACH) / viewport.view.scale;
  const lineAt = (at: InkSpot, isTouch = false) => markAt(marks, at, reachOf(isTouch))?.id ?? null;

  const send = (event: InkEvent, used = tool) => {
    if (!used) return;
    if (event.type !== "cancel") point(event.at);
    const now = progress.current;
    const step = stepInk(now.gesture, event, used);
    now.gesture = step.gesture;
    now.stroke = liveStroke(step.gesture, now.stroke, input);
    perform(step.outcome, now.stroke, input, setWriting);
    if (step.gesture.kind !== "stroke") now.stroke = null;
    showStroke(now.stroke, sent, show);
    redraw();
  };
  const moveRing = (to: InkSpot | null) => {
    progress.current.ring = to;
    setRing(to);
    if (to) show({ pointer: to });
    if (to) point(to);
    redraw();
  };
  const point = (at: InkSpot) => {
    if (tool === "point") progress.current.pointed.push(at);
  };
  const cancel = () => send({ type: "cancel" });
  useLeaving(tool, () => {
    Object.assign(progress.current, atRest());
    setRing(null);
    setWriting(null);
    showStroke(null, sent, show);
    redraw();
  });

  const onKeyDown = (event: KeyboardEvent) => {
    const by = ARROWS[event.key];
    if (by) {
      const to = ring ? { x: ring.x + by.x * stepOf(event), y: ring.y + by.y * stepOf(event) } : firstRing(viewport);
      moveRing(to);
      viewport.reveal({ x: to.x * GRID, y: to.y * GRID });
      send({ type: "move", at: to, mark: null });
    } else if (event.key === "Enter" && ring) {
      send({ type: "enter", at: ring, mark: noteNear(marks, ring) ?? lineAt(ring) });
    } else if (event.key === "Escape") {
      if (progress.current.gesture.kind === "none") input.leave();
      cancel();
    } else return;
    event.preventDefault();
  };
  return { progress, ring, writing, setWriting, send, cancel, spotAt, lineAt, moveRing, onKeyDown };
}

function atRest(): InkInProgress {
  return { gesture: NO_INK_GESTURE, ring: null, stroke: null, pointed: [] };
}

/** Gives up whatever is under way when the tool changes. */
function useLeaving(tool: InkTool | null, leave: () => void): void {
  const latest = useRef(leave);
  latest.current = leave;
  // biome-ignore lint/correctness/useExhaustiveDependencies: it is the change of tool that matters
  useEffect(() => () => latest.current(), [tool]);
}

/** The stroke of a gesture as others see it: with the id that it is going to be placed under. */
function liveStroke(gesture: InkGesture, before: LiveStroke | null, input: InkInput): LiveStroke | null {
  if (gesture.kind !== "stroke") return before;
  if (before) return before;
  const kind = input.tool === "highlighter" ? "highlighter" : "pen";
  return { id: input.newId(), kind, colour: input.colour, card: input.card, spots: gesture.spots };
}

function showStroke(stroke: LiveStroke | null, sent: { current: number }, show: InkInput["show"]): void {
  if (!stroke) {
    if (sent.current > 0) show({ stroke: null });
    sent.current = 0;
    return;
  }
  show({ stroke: strokeTail(stroke, sent.current) });
  sent.current = stroke.spots.length;
}

function perform(
  outcome: InkOutcome,
  stroke: LiveStroke | null,
  input: InkInput,
  write: (writing: Writing) => void,
): void {
  const { command, newId, colour, card, marks, viewport } = input;
  switch (outcome.do) {
    case "nothing":
      break;
    case "stroke":
      if (stroke) command(placing(stroke, viewport.view.scale, newId));
      break;
    case "arrow":
      command({ do: "placeArrow", id: newId(), colour, card, from: outcome.from, to: outcome.to });
      break;
    case "erase":
      command({ do: "eraseInk", ids: [outcome.mark] });
      break;
    case "shift":
      command({ do: "moveInk", ids: [outcome.mark], by: outcome.by });
      break;
    case "write": {
      const note = marks.find((mark): mark is InkNote => mark.kind === "note" && mark.id === outcome.mark) ?? null;
      write({ at: note?.at ?? outcome.at, note });
      break;
    }
    default:
      unreachable(outcome);
  }
}

/** A drawn stroke as it is placed: with as few spots as look the same, in pieces where those are still too many. */
function placing(stroke: LiveStroke, scale: number, newId: () => EntryId): Command {
  const stray = Math.max(STRAY / (GRID * scale), LEAST_STRAY);
  const pieces = strokePieces(simplifySpots(stroke.spots, stray));
  const commands = pieces.map(
    (spots, i): Command => ({ ...stroke, do: "placeStroke", id: i === 0 ? stroke.id : newId(), spots }),
  );
  return { do: "all", commands };
}

/** The note whose words begin within a step of the ring; where a note ends only the page knows. */
function noteNear(marks: readonly InkMark[], { x, y }: InkSpot): EntryId | null {
  const near = marks.findLast(
    (mark) => mark.kind === "note" && x >= mark.at.x - 0.5 && x <= mark.at.x + 2 && Math.abs(y - mark.at.y - 0.5) <= 1,
  );
  return near?.id ?? null;
}

const ARROWS: Readonly<Record<string, InkSpot>> = {
  ArrowLeft: { x: -1, y: 0 },
  ArrowRight: { x: 1, y: 0 },
  ArrowUp: { x: 0, y: -1 },
  ArrowDown: { x: 0, y: 1 },
};

/** Half a grid step, or two with Shift. */
function stepOf({ shiftKey }: KeyboardEvent): number {
  return shiftKey ? 2 : 0.5;
}

/** The ring first shows a little inside what is seen, on a grid point. */
function firstRing({ view }: ViewportControl): InkSpot {
  const world = toWorld(view, { x: 120, y: 120 });
  return { x: Math.round(world.x / GRID), y: Math.round(world.y / GRID) };
}
