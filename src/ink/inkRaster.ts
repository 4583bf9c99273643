import type { InkMark } from "../../shared/board";
import { type Size, toWorld, type Viewport } from "../board";
import type { Paper } from "./inkColours";
import { type Drawings, paintInk } from "./paintInk";

/** What a raster shows. */
export type RasterScene = {
  readonly marks: readonly InkMark[];
  readonly view: Viewport;
  readonly size: Size;
  readonly paper: Paper;
  /** Device pixels for each pixel of the page. */
  readonly ratio: number;
};

/** How far beyond the pane a raster reaches on each side, in pixels of the page, so that it can be panned. */
const MARGIN = 240;
/** A raster is stretched by at most this much, either way, before it is painted anew. */
const STRETCH = 1.6;

/**
 * Ink painted once and kept as a picture: while the paper is panned or zoomed the picture is moved and stretched, which
 * costs the same however much ink there is.
 */
export class InkRaster {
  readonly #drawings: Drawings;
  #picture: HTMLCanvasElement | null = null;
  #scene: RasterScene | null = null;

  constructor(drawings: Drawings) {
    this.#drawings = drawings;
  }

  /** Paints the scene; `isSharp` asks for a picture of exactly this scale. */
  paint(context: CanvasRenderingContext2D, scene: RasterScene, isSharp: boolean): void {
    if (scene.marks.length === 0) return;
    if (!this.#scene || !this.#picture || !canServe(this.#scene, scene, isSharp)) this.#renew(scene);
    const { view, size } = this.#scene as RasterScene;
    const stretch = scene.view.scale / view.scale;
    context.drawImage(
      this.#picture as HTMLCanvasElement,
      scene.view.x - (view.x + MARGIN) * stretch,
      scene.view.y - (view.y + MARGIN) * stretch,
      (size.width + 2 * MARGIN) * stretch,
      (size.height + 2 * MARGIN) * stretch,
    );
  }

  #renew(scene: RasterScene): void {
    const { view, size, ratio, marks, paper } = scene;
    const picture = this.#picture ?? document.createElement("canvas");
    // Setting a size clears the canvas, also where it is the same size.
    picture.width = Math.ceil((size.width + 2 * MARGIN) * ratio);
    picture.height = Math.ceil((size.height + 2 * MARGIN) * ratio);
    this.#picture = picture;
    this.#scene = scene;
    const context = picture.getContext("2d");
    if (!context) return;
    const scale = view.scale * ratio;
    context.setTransform(scale, 0, 0, scale, (view.x + MARGIN) * ratio, (view.y + MARGIN) * ratio);
    paintInk(context, marks, worldOf(view, size, MARGIN), paper, this.#drawings);
  }
}

/** Whether a picture of one scene can stand in for another: the same ink, near enough in scale, and all of the pane on it. */
export function canServe(kept: RasterScene, scene: RasterScene, isSharp: boolean): boolean {
  const stretch = scene.view.scale / kept.view.scale;
  if (kept.marks !== scene.marks || kept.paper !== scene.paper || kept.ratio !== scene.ratio) return false;
  if (stretch !== 1 && (isSharp || stretch > STRETCH || stretch < 1 / STRETCH)) return false;
  const [has, needs] = [worldOf(kept.view, kept.size, MARGIN), worldOf(scene.view, scene.size, 0)];
  return (
    has.x <= needs.x &&
    has.y <= needs.y &&
    has.x + has.width >= needs.x + needs.width &&
    has.y + has.height >= needs.y + needs.height
  );
}

/** The part of the drawing that a pane shows with a margin around it. */
function worldOf(view: Viewport, size: Size, margin: number) {
  const corner = toWorld(view, { x: -margin, y: -margin });
  return {
    ...corner,
    width: (size.width + 2 * margin) / view.scale,
    height: (size.height + 2 * margin) / view.scale,
  };
}
