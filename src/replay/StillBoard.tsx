"use client";

import { type KeyboardEvent, type PointerEvent, type ReactNode, useMemo, useRef, useState } from "react";
import type { Board, InkMark, InkNote } from "../../shared/board";
import {
  BoardCanvas,
  type CanvasLayers,
  paneSpot,
  type Size,
  useFonts,
  useSize,
  useTouches,
  useWheel,
  type ViewportControl,
  ViewWords,
  ZOOM_STEP,
} from "../board";
import { type Box, boxOfBoxes, type Figure, PAPERS, type Spot } from "../figure";
import { boxOfMark, useInkPaintings } from "../ink";
import { NoteLayer } from "../ink/NoteLayer";
import type { PaperSettings } from "../settings";
import styles from "./still.module.css";
import { type LookedAt, useRoomyViewport } from "./useRoomyViewport";

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
  const viewport = useRoomyViewport(useShownBox(board, figure, marks), caption, size);
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

/** The box of all that is on a board, ink as well; null where nothing is. */
function useShownBox(board: Board, { extent }: Figure, marks: readonly InkMark[]): Box | null {
  const [known] = useState(() => new WeakMap<InkMark, Box>());
  const ink = useMemo(() => marks.map((mark) => boxOnce(known, mark)), [known, marks]);
  const isDrawn = board.parts.length + board.wires.length + board.references.length > 0;
  return useMemo(() => {
    const boxes = isDrawn ? [extent, ...ink] : ink;
    return boxes.length === 0 ? null : boxOfBoxes(boxes);
  }, [isDrawn, extent, ink]);
}

/**
 * A mark is measured once, for it stays the same object until it is changed; mathematics in a note, where that is not set yet,
 * by its source.
 */
function boxOnce(known: WeakMap<InkMark, Box>, mark: InkMark): Box {
  const box = known.get(mark) ?? boxOfMark(mark);
  known.set(mark, box);
  return box;
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
