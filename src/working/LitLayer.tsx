"use client";

import { useMemo, useSyncExternalStore } from "react";
import { Group, Layer, Shape } from "react-konva";
import { type CanvasLayers, drawFigure, painter, type Viewport } from "../board";
import type { Paper, Tone } from "../figure";
import { type Drawn, type LitMarks, litMarks } from "./litMarks";
import type { LitStore } from "./litStore";

/** The marks of what is lit on a drawing just now, null where nothing is. */
export function useLitMarks(lit: LitStore, drawn: Drawn, tone: Tone): LitMarks | null {
  const now = useSyncExternalStore(lit.subscribe, lit.get, lit.get);
  return useMemo(() => now && litMarks(now, drawn, tone), [now, drawn, tone]);
}

/** The layers of the board's canvas that worked lines light: beneath the drawing a patch, above it the marks. */
export function useLitLayers(lit: LitStore, drawn: Drawn, tone: Tone, paper: Paper): CanvasLayers {
  return useMemo(
    () => (view) => {
      const own = { lit, drawn, tone, paper, view };
      return { beneath: <LitLayer {...own} place="beneath" />, above: <LitLayer {...own} place="above" /> };
    },
    [lit, drawn, tone, paper],
  );
}

type Props = {
  readonly lit: LitStore;
  readonly drawn: Drawn;
  readonly tone: Tone;
  readonly paper: Paper;
  readonly view: Viewport;
  readonly place: keyof LitMarks;
};

function LitLayer({ lit, drawn, tone, paper, view, place }: Props) {
  const marks = useLitMarks(lit, drawn, tone);
  // A layer is a canvas of its own, so there is none while nothing is lit.
  if (marks === null) return null;
  const strokes = marks[place];
  return (
    <Layer listening={false}>
      <Group x={view.x} y={view.y} scaleX={view.scale} scaleY={view.scale}>
        <Shape sceneFunc={painter((context) => drawFigure(context, { strokes, labels: [] }, paper))} />
      </Group>
    </Layer>
  );
}
