"use client";

import type Konva from "konva";
import { memo, type ReactNode, useMemo, useState } from "react";
import { Group, Layer, Shape, Stage } from "react-konva";
import type { Box, Figure, Paper, Stroke } from "../figure";
import { drawFigure } from "./drawFigure";
import { KeptPicture, type Painting } from "./keptPicture";
import { paintUnderlay } from "./overlay";
import { paintGrid } from "./paintGrid";
import { useSettled } from "./useSettled";
import type { Size, Viewport } from "./viewport";

type Props = {
  readonly size: Size;
  readonly view: Viewport;
  readonly figure: Figure;
  readonly overlay: readonly Stroke[];
  readonly chosen: readonly Box[];
  readonly faulty: readonly Box[];
  readonly paper: Paper;
  readonly ink: InkPaintings | null;
  readonly layers: CanvasLayers;
};

/** Ink that lies beneath the circuit, and ink that lies above it. */
export type InkPaintings = { readonly beneath: Painting; readonly above: Painting };

/** Konva layers below and above the drawing, for a view of a pane. */
export type CanvasLayers = (view: Viewport) => { readonly beneath: ReactNode; readonly above: ReactNode };

/**
 * The drawing on canvas, all of it one shape of one layer: nothing on it is hit by Konva (hit-testing is ours), and every
 * further canvas is one more that the browser has to lay over the others at each frame.
 */
export const BoardCanvas = memo(function BoardCanvas(props: Props) {
  const { size, view, overlay, paper } = props;
  const [picture] = useState(() => new KeptPicture());
  const isSharp = useSettled(view.scale);
  const drawing = useDrawing(props);
  const { beneath, above } = props.layers(view);
  const paint = (context: CanvasRenderingContext2D) => {
    picture.paint(context, drawing, isSharp);
    drawFigure(context, { strokes: overlay, labels: [] }, paper);
  };
  return (
    <Stage width={size.width} height={size.height} listening={false}>
      {beneath}
      <Layer listening={false}>
        <Group x={view.x} y={view.y} scaleX={view.scale} scaleY={view.scale}>
          <Shape sceneFunc={painter(paint)} />
        </Group>
      </Layer>
      {above}
    </Stage>
  );
});

/** All that lies on the paper, the grid included, as one painting. */
function useDrawing({ figure, chosen, faulty, paper, ink }: Props): Painting {
  return useMemo(
    () => (context) => {
      paintGrid(context, paper);
      ink?.beneath(context);
      paintUnderlay(context, chosen, faulty, paper);
      drawFigure(context, figure, paper);
      ink?.above(context);
    },
    [figure, chosen, faulty, paper, ink],
  );
}

/** Konva's context wraps the browser's own, which is the one that draws SVG paths. */
export function painter(paint: Painting) {
  return (context: Konva.Context) => paint(context._context);
}
