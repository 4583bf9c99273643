"use client";

import type Konva from "konva";
import { memo, type ReactNode, useState } from "react";
import { Group, Layer, Shape, Stage } from "react-konva";
import type { Box, Figure, Paper, Stroke } from "../figure";
import { drawFigure } from "./drawFigure";
import { FigurePicture } from "./figurePicture";
import { paintUnderlay } from "./overlay";
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
  readonly layers: CanvasLayers;
};

/** Konva layers below and above the circuit, for a view of a pane. */
export type CanvasLayers = (view: Viewport, size: Size) => { readonly beneath: ReactNode; readonly above: ReactNode };

/**
 * The drawing on canvas: one shape a layer, since nothing on it is hit by Konva (hit-testing is ours).
 */
export const BoardCanvas = memo(function BoardCanvas(props: Props) {
  const { size, view, figure, overlay, chosen, faulty, paper } = props;
  const [picture] = useState(() => new FigurePicture());
  const isSharp = useSettled(view.scale);
  const { beneath, above } = props.layers(view, size);
  const place = { x: view.x, y: view.y, scaleX: view.scale, scaleY: view.scale };
  return (
    <Stage width={size.width} height={size.height} listening={false}>
      {beneath}
      <Layer listening={false}>
        <Group {...place}>
          <Shape sceneFunc={painter((context) => paintUnderlay(context, chosen, faulty, paper))} />
          <Shape sceneFunc={painter((context) => picture.paint(context, figure, paper, isSharp))} />
        </Group>
      </Layer>
      {above}
      <Layer listening={false}>
        <Group {...place}>
          <Shape sceneFunc={painter((context) => drawFigure(context, { strokes: overlay, labels: [] }, paper))} />
        </Group>
      </Layer>
    </Stage>
  );
});

/** Konva's context wraps the browser's own, which is the one that draws SVG paths. */
export function painter(paint: (context: CanvasRenderingContext2D) => void) {
  return (context: Konva.Context) => paint(context._context);
}
