"use client";

import { type KeyboardEvent, type PointerEvent, type ReactNode, useEffect, useRef, useState } from "react";
import type { Board, InkMark, InkNote } from "../../shared/board";
import {
  BoardCanvas,
  type CanvasLayers,
  isWithin,
  paneSpot,
  type Size,
  useFonts,
  useSize,
  useTouches,
  useViewport,
  useWheel,
  type ViewportControl,
  ViewWords,
  ZOOM_STEP,
} from "../board";
import { type Box, boxOfBoxes, type Figure, GRID, PAPERS, type Spot } from "../figure";
import { useInkPaintings } from "../ink";
import { NoteLayer } from "../ink/NoteLayer";
import type { PaperSettings } from "../settings";
import styles from "./still.module.css";

type Props = {
  readonly board: Board;
  readonly figure: Figure;
  /** The ink that is seen on the open card. */
  readonly marks: readonly InkMark[];
  readonly settings: PaperSettings;
  /** Which circuit is shown, such as "Only I1 acts." */
  readonly caption: string;
  readonly label: string;
  readonly layers?: CanvasLayers;
  /** What lies on the board, given where things are on it. */
  readonly children?: (place: StillPlace) => ReactNode;
};

export type StillPlace = { readonly viewport: LookedAt; readonly size: Size };

const NO_LAYERS: CanvasLayers = () => ({ beneath: null, above: null });
const NOTHING: readonly never[] = [];

/** A board to be looked at: it can be moved about and made larger, and nothing on it changed. */
export function StillBoard({ board, figure, marks, settings, caption, label, layers, children }: Props) {
  const pane = useRef<HTMLDivElement>(null);
  const size = useSize(pane);
  const hasFonts = useFonts();
  const isEmpty = board.parts.length + board.wires.length + board.references.length === 0;
  const viewport = useRoomyViewport(figure.extent, isEmpty, caption, size);
  const ink = useInkPaintings(marks, settings.paper);
  const handlers = useLooking(pane, viewport);
  const { view } = viewport;
  const zoom = (factor: number) => {
    viewport.look();
    viewport.zoom(factor);
  };
  return (
    <div className={styles.pane}>
      {/* biome-ignore lint/a11y/useSemanticElements: a fieldset is for fields */}
      <div
        ref={pane}
        className={styles.sheet}
        role="group"
        // biome-ignore lint/a11y/noNoninteractiveTabindex: the arrow keys move the paper
        tabIndex={0}
        data-own-keys
        aria-label={label}
        data-view={`${view.scale} ${view.x} ${view.y}`}
        {...handlers}
      >
        {hasFonts && size.width > 0 && size.height > 0 && (
          <BoardCanvas
            {...{ size, view, figure, ink }}
            overlay={NOTHING}
            chosen={NOTHING}
            faulty={NOTHING}
            paper={PAPERS[settings.paper]}
            layers={layers ?? NO_LAYERS}
          />
        )}
      </div>
      <div className={styles.onBoard}>
        <NoteLayer notes={marks.filter(isNote)} view={view} paper={settings.paper} edit={null} />
        {children?.({ viewport, size })}
      </div>
      <p className={styles.caption}>{caption}</p>
      <ViewWords legend={`View of ${label}`} className={styles.viewWords ?? ""} fit={viewport.fit} zoom={zoom} />
    </div>
  );
}

/** The room for what may be drawn next, in pixels of the drawing: the view then changes seldom while a circuit grows. */
const ROOM = 8 * GRID;

/**
 * A view that keeps all of a drawing in sight while the drawing grows, until whoever looks moves it themselves. What was once
 * seen keeps its room, so that going back and forth moves nothing.
 */
function useRoomyViewport(extent: Box, isEmpty: boolean, subject: string, size: Size): LookedAt {
  const [roomy, setRoomy] = useState<Box | null>(null);
  const needed = isEmpty ? roomy : roomyBox(roomy, extent);
  if (needed !== roomy) setRoomy(needed);
  const viewport = useViewport(needed ?? extent, needed === null, subject, size);
  const isLookedAt = useRef(false);
  const isFitted = useRef(false);
  const isSeen = isEmpty || size.width === 0 || isWithin(viewport.view, extent, size);
  useEffect(() => {
    // What comes first is fitted once, though it may be seen already.
    const isToFit = !isSeen || (!isEmpty && !isFitted.current);
    if (!isToFit || isLookedAt.current || size.width === 0) return;
    isFitted.current = true;
    viewport.fit();
  }, [isSeen, isEmpty, size.width, viewport.fit]);
  return {
    ...viewport,
    fit: () => {
      isLookedAt.current = false;
      viewport.fit();
    },
    look: () => {
      isLookedAt.current = true;
    },
  };
}

/** `look` tells that whoever looks has moved the view. */
type LookedAt = ViewportControl & { readonly look: () => void };

/** A box around both: what comes first as it is, what comes then with its sides on a coarse grid. The same object where it is the same box. */
function roomyBox(before: Box | null, extent: Box): Box {
  if (!before) return extent;
  if (isInside(extent, before)) return before;
  const both = boxOfBoxes([before, extent]);
  const down = (value: number) => Math.floor(value / ROOM) * ROOM;
  const up = (value: number) => Math.ceil(value / ROOM) * ROOM;
  const [x, y] = [down(both.x), down(both.y)];
  return { x, y, width: up(both.x + both.width) - x, height: up(both.y + both.height) - y };
}

function isInside(inner: Box, outer: Box): boolean {
  const { x, y, width, height } = outer;
  return inner.x >= x && inner.y >= y && inner.x + inner.width <= x + width && inner.y + inner.height <= y + height;
}

function isNote(mark: InkMark): mark is InkNote {
  return mark.kind === "note";
}

/** How far an arrow key moves the paper, in pixels. */
const SCROLL = 48;
const SCROLLS: Readonly<Record<string, readonly [dx: number, dy: number]>> = {
  ArrowLeft: [SCROLL, 0],
  ArrowRight: [-SCROLL, 0],
  ArrowUp: [0, SCROLL],
  ArrowDown: [0, -SCROLL],
};

/** Pointer, wheel, fingers and keys move the paper. */
function useLooking(pane: React.RefObject<HTMLDivElement | null>, viewport: LookedAt) {
  const spotOf = (event: { readonly clientX: number; readonly clientY: number }) => paneSpot(pane.current, event);
  const looking: ViewportControl = {
    ...viewport,
    pan: (dx, dy) => {
      viewport.look();
      viewport.pan(dx, dy);
    },
    zoom: (factor, spot) => {
      viewport.look();
      viewport.zoom(factor, spot);
    },
  };
  const touches = useTouches(looking, spotOf);
  const from = useRef<Spot | null>(null);
  useWheel(pane, looking);
  const end = (event: PointerEvent) => {
    touches.up(event);
    from.current = null;
  };
  return {
    onKeyDown: (event: KeyboardEvent) => {
      const scroll = event.shiftKey ? undefined : SCROLLS[event.key];
      if (scroll) looking.pan(...scroll);
      else if (event.key === "+" || event.key === "=") looking.zoom(ZOOM_STEP);
      else if (event.key === "-") looking.zoom(1 / ZOOM_STEP);
      else if (event.key === "0") viewport.fit();
      else return;
      event.preventDefault();
    },
    onPointerDown: (event: PointerEvent<HTMLDivElement>) => {
      event.currentTarget.setPointerCapture(event.pointerId);
      from.current = touches.down(event) ? null : spotOf(event);
    },
    onPointerMove: (event: PointerEvent<HTMLDivElement>) => {
      if (touches.move(event) || !from.current) return;
      const to = spotOf(event);
      looking.pan(to.x - from.current.x, to.y - from.current.y);
      from.current = to;
    },
    onPointerUp: end,
    onPointerCancel: end,
  };
}
