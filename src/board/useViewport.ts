"use client";

import { useCallback, useMemo, useState } from "react";
import { type Box, boxOfBoxes, type Spot } from "../figure";
import { fitView, isWithin, panBy, revealSpot, type Size, type Viewport, zoomAt } from "./viewport";

/** Where an empty board begins: its grid's origin a little inside the pane. */
const BLANK: Viewport = { scale: 1, x: 72, y: 72 };

export type ViewportControl = {
  readonly view: Viewport;
  readonly fit: () => void;
  readonly pan: (dx: number, dy: number) => void;
  /** Zooms about a spot of the pane, its middle where none is given. */
  readonly zoom: (factor: number, spot?: Spot) => void;
  readonly reveal: (world: Spot) => void;
  readonly show: (view: Viewport) => void;
};

type Fitted = { readonly extent: Box | null; readonly subject: string };

/**
 * The view of the pane. Until somebody pans or zooms it shows the drawing as it was first met, fitted to the pane at
 * every size; it does not move while a person draws. `subject` says which circuit is shown: another one has words of
 * its own beside its parts, and where those would touch the edge, the view makes room for them.
 */
export function useViewport(extent: Box, isEmpty: boolean, subject: string, pane: Size): ViewportControl {
  const [own, setOwn] = useState<Viewport | null>(null);
  const [fitted, setFitted] = useState<Fitted | null>(null);
  const padding = pane.width < 600 ? 16 : 48;
  // The first content that comes as a whole (a room that is joined, a file that is opened) is what is fitted.
  if (fitted === null && pane.width > 0) setFitted({ extent: isEmpty ? null : extent, subject });
  if (fitted && fitted.subject !== subject)
    setFitted({ extent: withRoom(fitted.extent, extent, pane, padding), subject });
  const view = useMemo(() => {
    if (own) return own;
    return fitted?.extent ? fitView(fitted.extent, pane, padding) : BLANK;
  }, [own, fitted, pane, padding]);

  const fit = useCallback(() => {
    setOwn(null);
    setFitted({ extent: isEmpty ? null : extent, subject });
  }, [extent, isEmpty, subject]);
  const pan = useCallback((dx: number, dy: number) => setOwn((before) => panBy(before ?? view, dx, dy)), [view]);
  const zoom = useCallback(
    (factor: number, spot: Spot = { x: pane.width / 2, y: pane.height / 2 }) =>
      setOwn((before) => zoomAt(before ?? view, spot, factor)),
    [view, pane],
  );
  const reveal = useCallback(
    (world: Spot) => {
      const revealed = revealSpot(view, pane, world, 40);
      if (revealed !== view) setOwn(revealed);
    },
    [view, pane],
  );
  return { view, fit, pan, zoom, reveal, show: setOwn };
}

/** What is fitted once another circuit is shown: the same as before, unless something of that circuit would touch the edge. */
function withRoom(fitted: Box | null, extent: Box, pane: Size, padding: number): Box | null {
  if (!fitted || isWithin(fitView(fitted, pane, padding), extent, pane)) return fitted;
  return boxOfBoxes([fitted, extent]);
}
