"use client";

import type Konva from "konva";
import { Group, Layer, Shape, Stage } from "react-konva";
import type { Box, Figure, Stroke } from "../figure";
import { drawFigure } from "./drawFigure";
import { paintUnderlay } from "./overlay";
import type { Size, Viewport } from "./viewport";

type Props = {
  readonly size: Size;
  readonly view: Viewport;
  readonly figure: Figure;
  readonly overlay: readonly Stroke[];
  readonly chosen: Box | null;
  readonly faulty: readonly Box[];
};

/**
 * The drawing on canvas: one shape a layer, since nothing on it is hit by Konva (hit-testing is ours).
 */
export function BoardCanvas({ size, view, figure, overlay, chosen, faulty }: Props) {
  const place = { x: view.x, y: view.y, scaleX: view.scale, scaleY: view.scale };
  return (
    <Stage width={size.width} height={size.height} listening={false}>
      <Layer listening={false}>
        <Group {...place}>
          <Shape sceneFunc={painter((context) => paintUnderlay(context, chosen, faulty))} />
          <Shape sceneFunc={painter((context) => drawFigure(context, figure))} />
        </Group>
      </Layer>
      <Layer listening={false}>
        <Group {...place}>
          <Shape sceneFunc={painter((context) => drawFigure(context, { strokes: overlay, labels: [] }))} />
        </Group>
      </Layer>
    </Stage>
  );
}

/** Konva's context wraps the browser's own, which is the one that draws SVG paths. */
function painter(paint: (context: CanvasRenderingContext2D) => void) {
  return (context: Konva.Context) => paint(context._context);
}
