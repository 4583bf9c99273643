"use client";

import { type PointerEvent, type ReactNode, useEffect, useId, useMemo, useRef } from "react";
import type { Board, Command, EntryId } from "../../shared/board";
import { type Box, type Figure, GRID, PAPER } from "../figure";
import type { ShownProblem } from "../words";
import { BoardCanvas, type CanvasLayers } from "./BoardCanvas";
import styles from "./board.module.css";
import type { Gesture, Tool } from "./gesture";
import { layOutNotes } from "./noteLayout";
import { cursorStrokes, entryBox, overlayStrokes } from "./overlay";
import { StretchField } from "./StretchField";
import { useBoardInput } from "./useBoardInput";
import { useFonts } from "./useFonts";
import { useSize } from "./useSize";
import { useTouches } from "./useTouches";
import { useViewport, type ViewportControl } from "./useViewport";
import { paneSpot, useWheel } from "./useWheel";
import { type Size, toScreen, type Viewport } from "./viewport";

/** A pane narrower than this, in pixels, is a phone's. */
const NARROW = 620;

const NO_LAYERS: CanvasLayers = () => ({ beneath: null, above: null });

type Props = {
  readonly board: Board;
  readonly figure: Figure;
  readonly tool: Tool;
  readonly chosen: EntryId | null;
  readonly choose: (entry: EntryId | null) => void;
  readonly command: (command: Command) => void;
  readonly newId: () => EntryId;
  readonly problems: readonly ShownProblem[];
  /** What to say about the circuit that is shown, such as "Only I1 acts." */
  readonly caption: string;
  /** What to say of the tool in hand instead of what the board says of its own; null for the board's words. */
  readonly hint?: string | null;
  /** What else is on the canvas, such as ink. */
  readonly layers?: CanvasLayers;
  /** What lies on the pane beside the drawing, given where things are on it. */
  readonly children: (place: PanePlace) => ReactNode;
};

export type PanePlace = { readonly viewport: ViewportControl; readonly size: Size; readonly chosenBox: Box | null };

/** The sheet of paper that the circuit is drawn on. */
export function BoardPane(props: Props) {
  const { board, figure, tool, chosen, problems, caption } = props;
  const pane = useRef<HTMLDivElement>(null);
  const size = useSize(pane);
  const hasFonts = useFonts();
  const isEmpty = board.parts.length + board.wires.length + board.references.length === 0;
  const viewport = useViewport(figure.extent, isEmpty, size);
  const { gesture, cursor, pointer, field, onKeyDown } = useBoardInput({ ...props, viewport });
  const { view } = viewport;
  const overlay = useMemo(
    () => [...overlayStrokes(gesture, field.pending), ...(cursor ? cursorStrokes(cursor) : [])],
    [gesture, field.pending, cursor],
  );
  const faults = problems.filter((problem) => problem.severity === "fault");
  const boxOf = (id: EntryId) => entryBox(id, board, figure) ?? [];
  const faulty = faults.flatMap((problem) => problem.entries.flatMap(boxOf));
  const chosenBox = chosen ? entryBox(chosen, board, figure) : null;
  useChosenInSight(chosen, chosenBox, viewport, size);
  const handlers = usePointerHandlers(pane, pointer, viewport);
  const hint = useId();

  return (
    <div className={styles.pane}>
      <div
        ref={pane}
        className={styles.sheet}
        style={gridStyle(view)}
        role="application"
        // biome-ignore lint/a11y/noNoninteractiveTabindex: the board takes the keyboard
        tabIndex={0}
        aria-label="Drawing board"
        aria-describedby={hint}
        data-view={`${view.scale} ${view.x} ${view.y}`}
        onKeyDown={onKeyDown}
        {...handlers}
      >
        {hasFonts && size.width > 0 && (
          <BoardCanvas
            size={size}
            view={view}
            figure={figure}
            overlay={overlay}
            chosen={chosenBox}
            faulty={faulty}
            layers={props.layers ?? NO_LAYERS}
          />
        )}
        {field.pending && (
          <StretchField
            {...field}
            pending={field.pending}
            view={view}
            paneWidth={size.width}
            leave={() => pane.current?.focus({ preventScroll: true })}
          />
        )}
        <FaultNotes faults={faults} boxOf={boxOf} figure={figure} view={view} size={size} />
      </div>
      {props.children({ viewport, size, chosenBox })}
      <p className={styles.caption}>{caption}</p>
      <p id={hint} className={styles.hint}>
        {props.hint ?? hintText(tool, gesture, cursor !== null)}
      </p>
    </div>
  );
}

type FaultNotesProps = {
  readonly faults: readonly ShownProblem[];
  readonly boxOf: (id: EntryId) => Box | readonly never[];
  readonly figure: Figure;
  readonly view: Viewport;
  readonly size: Size;
};

/** What is wrong, beside the first symbol that each fault is about. Read aloud from the list instead. */
function FaultNotes({ faults, boxOf, figure, view, size }: FaultNotesProps) {
  const requests = faults.map(({ key, text, entries }) => ({ key, text, at: entries.flatMap(boxOf)[0] ?? null }));
  return layOutNotes(requests, figure, view, size).map((note) => (
    <p key={note.key} className={styles.note} style={{ left: note.left, top: note.top }} aria-hidden="true">
      {note.text}
    </p>
  ));
}

/** On a narrow pane the slip takes the lower part, so what has been chosen is brought into the upper part. */
function useChosenInSight(chosen: EntryId | null, box: Box | null, viewport: ViewportControl, size: Size): void {
  const bring = useRef(() => {});
  bring.current = () => {
    if (!box || size.width === 0 || size.width >= NARROW) return;
    const middle = toScreen(viewport.view, { x: box.x + box.width / 2, y: box.y + box.height / 2 });
    if (middle.y > size.height * 0.3) viewport.pan(0, size.height * 0.2 - middle.y);
  };
  useEffect(() => {
    if (chosen) bring.current();
  }, [chosen]);
}

function gridStyle(view: ViewportControl["view"]) {
  const step = GRID * view.scale;
  // The dots are drawn in the middle of a tile, so the tile's corner lies half a step before a grid point.
  return {
    backgroundImage: `radial-gradient(circle, ${PAPER.dot} 1.1px, transparent 1.4px)`,
    backgroundSize: `${step}px ${step}px`,
    backgroundPosition: `${view.x - step / 2}px ${view.y - step / 2}px`,
  };
}

function usePointerHandlers(
  pane: React.RefObject<HTMLDivElement | null>,
  pointer: ReturnType<typeof useBoardInput>["pointer"],
  viewport: ViewportControl,
) {
  const spotOfEvent = (event: PointerEvent) => paneSpot(pane.current, event);
  const touches = useTouches(viewport, spotOfEvent);
  useWheel(pane, viewport);
  return {
    onPointerDown: (event: PointerEvent<HTMLDivElement>) => {
      if (event.button !== 0) return;
      // A field that is being typed in saves when it loses the focus, which must come before its slip goes away.
      event.currentTarget.focus({ preventScroll: true });
      event.currentTarget.setPointerCapture(event.pointerId);
      if (touches.down(event)) pointer.cancel();
      else pointer.down(event, spotOfEvent(event));
    },
    onPointerMove: (event: PointerEvent<HTMLDivElement>) => {
      if (!touches.move(event)) pointer.move(spotOfEvent(event));
    },
    onPointerUp: (event: PointerEvent<HTMLDivElement>) => {
      if (event.button === 0 && !touches.up(event)) pointer.up(event, spotOfEvent(event));
    },
    onPointerCancel: (event: PointerEvent<HTMLDivElement>) => {
      touches.up(event);
      pointer.cancel();
    },
  };
}

function hintText(tool: Tool, gesture: Gesture, hasCursor: boolean): string {
  if (gesture.kind === "stretch" && !gesture.isHeld)
    return "Click where the line ends, or press Enter there. Esc gives it up.";
  if (hasCursor && tool === "stretch")
    return "Arrow keys move the ring, Enter starts and ends a line, Space chooses what lies there.";
  switch (tool) {
    case "stretch":
      return "Drag from one grid point to another, or click both, then type a value. Click a symbol to change it.";
    case "select":
      return "Click a symbol or wire to change it, drag it to move it.";
    case "reference":
      return "Click the node that is to be at 0 V. Click the symbol again to take it away.";
  }
}
