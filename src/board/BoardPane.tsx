"use client";

import { type ReactNode, type RefObject, useEffect, useId, useMemo, useRef } from "react";
import {
  addPoints,
  type Board,
  type Command,
  carry,
  type EntryId,
  entryId,
  pointText,
  samePoint,
} from "../../shared/board";
import type { Box, Figure, FigureLayers, Paper, SymbolSet } from "../figure";
import type { ShownProblem } from "../words";
import { BoardCanvas, type CanvasLayers, type InkPaintings } from "./BoardCanvas";
import { BoardFields } from "./BoardFields";
import styles from "./board.module.css";
import { FaultNotes } from "./FaultNotes";
import type { Gesture } from "./gesture";
import { ModeBar } from "./ModeBar";
import { hintText, type ModeStep, modeWords } from "./modeWords";
import { aimStrokes, cursorStrokes, entryBox, overlayStrokes } from "./overlay";
import { PrintedFigure } from "./PrintedFigure";
import { onlyOf, type Selection } from "./selection";
import { turnedBlock } from "./tool";
import { useBoardInput } from "./useBoardInput";
import type { BoardTools } from "./useBoardTools";
import { useFonts } from "./useFonts";
import { usePaneEvents } from "./usePaneEvents";
import { useSize } from "./useSize";
import { useViewport, type ViewportControl } from "./useViewport";
import { panBy, type Size, toScreen, type Viewport } from "./viewport";

/** A pane narrower than this, in pixels, is a phone's. */
const NARROW = 620;

const NO_LAYERS: CanvasLayers = () => ({ beneath: null, above: null });
const NOTHING_PRINTED = () => null;

type Props = {
  readonly board: Board;
  readonly figure: Figure;
  /** Draws another board as the figure draws this one, for what is only being tried. */
  readonly figureWith: (board: Board) => Figure;
  readonly tools: BoardTools;
  readonly command: (command: Command) => void;
  readonly newId: () => EntryId;
  readonly problems: readonly ShownProblem[];
  readonly paper: Paper;
  readonly symbols: SymbolSet;
  /** What to say about the circuit that is shown, such as "Only I1 acts." */
  readonly caption: string;
  /** What to say of the tool in hand instead of what the board says of its own; null for the board's words. */
  readonly hint?: string | null;
  readonly ink?: InkPaintings;
  /** What else is on the canvas, such as the light of worked lines. */
  readonly layers?: CanvasLayers;
  /** The same for the printer, made when it is asked for. */
  readonly printLayers?: () => FigureLayers | null;
  /** What lies on the pane beside the drawing, given where things are on it. */
  readonly children: (place: PanePlace) => ReactNode;
};

export type PanePlace = {
  readonly viewport: ViewportControl;
  readonly size: Size;
  readonly chosenBox: Box | null;
  readonly actions: ReturnType<typeof useBoardInput>["actions"];
  /** Whether something is under way that what lies on the pane would be in the way of. */
  readonly isBusy: boolean;
};

/** The sheet of paper that the circuit is drawn on. */
export function BoardPane(props: Props) {
  const { board, tools, problems, caption, paper, symbols } = props;
  const pane = useRef<HTMLDivElement>(null);
  const size = useSize(pane);
  const hasFonts = useFonts();
  const isEmpty = board.parts.length + board.wires.length + board.references.length === 0;
  const viewport = useViewport(props.figure.extent, isEmpty, caption, size);
  const input = useBoardInput({ ...props, pane, viewport });
  const { gesture, cursor, hover, field } = input;
  const { tool, selection } = tools;
  const { view } = viewport;
  const tried = useTriedBoard(board, selection, gesture);
  const figure = useMemo(
    () => (tried ? props.figureWith(tried) : props.figure),
    [tried, props.figure, props.figureWith],
  );
  const shownBoard = tried ?? board;
  const overlay = useMemo(
    () => [
      ...aimStrokes(tool, gesture, cursor ?? hover, board, props.figure, symbols),
      ...overlayStrokes(gesture, field.pending, symbols),
      ...(cursor ? cursorStrokes(cursor) : []),
    ],
    [tool, gesture, field.pending, cursor, hover, board, props.figure, symbols],
  );
  const boxes = useBoxes(shownBoard, figure, selection, problems);
  const only = onlyOf(selection);
  const chosenBox = only ? entryBox(only, shownBoard, figure) : (boxes.chosen[0] ?? null);
  useChosenInSight(only, chosenBox, viewport, size);
  useFocusBack(pane, selection.size > 0);
  const handlers = usePaneEvents(pane, input.pointer, viewport, input.onKeyDown);
  const hint = useId();
  const mode = modeWords(tool, gesture, board.references.length > 0);

  return (
    <div className={styles.pane}>
      <div
        ref={pane}
        className={styles.sheet}
        role="application"
        // biome-ignore lint/a11y/noNoninteractiveTabindex: the board takes the keyboard
        tabIndex={0}
        aria-label="Drawing board"
        aria-describedby={hint}
        data-ring={cursor ? pointText(cursor) : undefined}
        data-view={`${view.scale} ${view.x} ${view.y}`}
        {...handlers}
      >
        {hasFonts && size.width > 0 && (
          <BoardCanvas
            {...{ size, view, figure, overlay, paper }}
            ink={props.ink ?? null}
            layers={props.layers ?? NO_LAYERS}
            chosen={boxes.chosen}
            faulty={boxes.faulty}
          />
        )}
        <FaultNotes faults={boxes.faults} boxOf={boxes.boxOf} figure={figure} view={view} size={size} />
      </div>
      <BoardFields {...{ input, board, figure, view, size, pane }} command={props.command} />
      {props.children({
        viewport,
        size,
        chosenBox,
        actions: input.actions,
        isBusy:
          tool.do === "pick" || gesture.kind !== "none" || input.editing.of !== null || input.nameField.at !== null,
      })}
      <p className={styles.caption}>{caption}</p>
      <ModeBar mode={mode} said={input.said} take={(step) => takeStep(step, input, tools)} />
      <p id={hint} className={styles.hint}>
        {props.hint ?? hintText(tool, gesture, cursor !== null, selection.size > 0)}
      </p>
      <PrintedFigure figure={figure} layers={props.printLayers ?? NOTHING_PRINTED} />
    </div>
  );
}

/** The board as it would be if the selection were let go where it is; null where nothing is being moved. */
function useTriedBoard(board: Board, selection: Selection, gesture: Gesture): Board | null {
  const by =
    gesture.kind === "move" && !samePoint(gesture.from, gesture.to)
      ? addPoints(gesture.to, { x: -gesture.from.x, y: -gesture.from.y })
      : null;
  const [dx, dy] = [by?.x ?? 0, by?.y ?? 0];
  return useMemo(() => {
    if (dx === 0 && dy === 0) return null;
    let count = 0;
    return carry(board, selection, { kind: "shift", by: { x: dx, y: dy } }, () => entryId(`tried-${++count}`));
  }, [board, selection, dx, dy]);
}

function useBoxes(board: Board, figure: Figure, selection: Selection, problems: readonly ShownProblem[]) {
  return useMemo(() => {
    const boxOf = (id: EntryId) => entryBox(id, board, figure) ?? [];
    const faults = problems.filter((problem) => problem.severity === "fault");
    return {
      boxOf,
      faults,
      faulty: faults.flatMap((problem) => problem.entries.flatMap(boxOf)),
      chosen: [...selection].flatMap(boxOf),
    };
  }, [board, figure, selection, problems]);
}

function takeStep(step: ModeStep, input: ReturnType<typeof useBoardInput>, tools: BoardTools): void {
  switch (step) {
    case "bend":
      input.send({ type: "flip" });
      return;
    case "end":
      input.send({ type: "end" });
      return;
    case "turn":
    case "mirror":
      if (tools.tool.do === "block") tools.setTool(turnedBlock(tools.tool, step));
      return;
    case "toReference":
      input.pickReference();
      return;
    case "back":
      input.giveUp();
      return;
  }
}

/** Gives the keyboard back to the board where it was on the slip of what is no longer chosen. */
function useFocusBack(pane: RefObject<HTMLElement | null>, isAnyChosen: boolean): void {
  const wasAnyChosen = useRef(false);
  useEffect(() => {
    if (wasAnyChosen.current && !isAnyChosen && document.activeElement === document.body) {
      pane.current?.focus({ preventScroll: true });
    }
    wasAnyChosen.current = isAnyChosen;
  }, [pane, isAnyChosen]);
}

/**
 * On a narrow pane the slip takes the lower part, so what has been chosen is brought into the upper part, and the
 * drawing goes back once nothing is chosen, unless somebody has moved it meanwhile.
 */
function useChosenInSight(chosen: EntryId | null, box: Box | null, viewport: ViewportControl, size: Size): void {
  const moved = useRef<{ readonly from: Viewport; readonly to: Viewport } | null>(null);
  const bring = useRef(() => {});
  bring.current = () => {
    if (!box || size.width === 0 || size.width >= NARROW) return;
    const { view } = viewport;
    const middle = toScreen(view, { x: box.x + box.width / 2, y: box.y + box.height / 2 });
    if (middle.y <= size.height * 0.3) return;
    const to = panBy(view, 0, size.height * 0.2 - middle.y);
    moved.current = { from: moved.current?.to === view ? moved.current.from : view, to };
    viewport.show(to);
  };
  const goBack = useRef(() => {});
  goBack.current = () => {
    if (moved.current?.to === viewport.view) viewport.show(moved.current.from);
    moved.current = null;
  };
  useEffect(() => {
    if (chosen) bring.current();
    else goBack.current();
  }, [chosen]);
}
