"use client";

import { useMemo } from "react";
import { Layer, Shape } from "react-konva";
import type { InkMark } from "../../shared/board";
import { type CanvasLayers, painter, type Size, useSettled, type Viewport } from "../board";
import type { Paper } from "./inkColours";
import { layersOf } from "./inkDrawing";
import { InkRaster } from "./inkRaster";

/** The layers of the board's canvas that ink lies on: highlighter beneath the circuit, all other lines above it. */
export function useInkLayers(marks: readonly InkMark[], paper: Paper): CanvasLayers {
  return useMemo(() => {
    const { beneath, above } = layersOf(marks);
    const layer = (of: readonly InkMark[], view: Viewport, size: Size) => (
      <InkLayer marks={of} view={view} size={size} paper={paper} />
    );
    return (view, size) => ({ beneath: layer(beneath, view, size), above: layer(above, view, size) });
  }, [marks, paper]);
}

type Props = {
  readonly marks: readonly InkMark[];
  readonly view: Viewport;
  readonly size: Size;
  readonly paper: Paper;
};

function InkLayer({ marks, view, size, paper }: Props) {
  const raster = useMemo(() => new InkRaster(new WeakMap()), []);
  const isSharp = useSettled(view.scale);
  const scene = { marks, view, size, paper, ratio: window.devicePixelRatio };
  return (
    <Layer listening={false}>
      <Shape sceneFunc={painter((context) => raster.paint(context, scene, isSharp))} />
    </Layer>
  );
}
