"use client";

import { useMemo } from "react";
import { Group, Layer, Shape } from "react-konva";
import type { InkMark } from "../../shared/board";
import { type CanvasLayers, painter, type Size, toWorld, type Viewport } from "../board";
import type { Paper } from "./inkColours";
import { type Drawings, paintInk } from "./paintInk";

/** The layers of the board's canvas that ink lies on: highlighter beneath the circuit, all other lines above it. */
export function useInkLayers(marks: readonly InkMark[], paper: Paper): CanvasLayers {
  const drawings = useMemo<Drawings>(() => new WeakMap(), []);
  return useMemo(() => {
    const beneath = marks.filter((mark) => mark.kind === "highlighter");
    const above = marks.filter((mark) => mark.kind === "pen" || mark.kind === "arrow");
    const layer = (of: readonly InkMark[], view: Viewport, size: Size) => (
      <InkLayer marks={of} drawings={drawings} view={view} size={size} paper={paper} />
    );
    return (view, size) => ({ beneath: layer(beneath, view, size), above: layer(above, view, size) });
  }, [marks, paper, drawings]);
}

type Props = {
  readonly marks: readonly InkMark[];
  readonly drawings: Drawings;
  readonly view: Viewport;
  readonly size: Size;
  readonly paper: Paper;
};

function InkLayer({ marks, drawings, view, size, paper }: Props) {
  const corner = toWorld(view, { x: 0, y: 0 });
  const seen = { ...corner, width: size.width / view.scale, height: size.height / view.scale };
  return (
    <Layer listening={false}>
      <Group x={view.x} y={view.y} scaleX={view.scale} scaleY={view.scale}>
        <Shape sceneFunc={painter((context) => paintInk(context, marks, seen, paper, drawings))} />
      </Group>
    </Layer>
  );
}
