import type { Figure, Paper } from "../figure";
import { drawFigure } from "./drawFigure";

type Context = CanvasRenderingContext2D;

/** A picture reaches this share of the pane beyond it on each side, so that it serves for some way of panning. */
const MARGIN = 0.5;

/** Where a figure lies on a canvas, in device pixels. */
type Place = {
  readonly scale: number;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
};

type Picture = {
  readonly canvas: HTMLCanvasElement;
  readonly figure: Figure;
  readonly paper: Paper;
  /** Scale in device pixels, and where the drawing's origin lies on the picture. */
  readonly scale: number;
  readonly x: number;
  readonly y: number;
};

/**
 * Paints a figure, and keeps a picture of it while nothing but its place changes: a step of panning then copies pixels
 * and strokes no line. What is new, or is being zoomed, is painted as it is, since its picture might not serve twice.
 */
export class FigurePicture {
  #picture: Picture | null = null;
  #last: { readonly figure: Figure; readonly paper: Paper; readonly scale: number } | null = null;

  paint(context: Context, figure: Figure, paper: Paper): void {
    const { a: scale, e: x, f: y } = context.getTransform();
    const last = this.#last;
    const isSettled = last?.scale === scale && last.figure === figure && last.paper === paper;
    this.#last = { figure, paper, scale };
    if (!isSettled) {
      this.#picture = null;
      drawFigure(context, figure, paper);
      return;
    }
    const { width, height } = context.canvas;
    const place = { scale, x, y, width, height };
    const picture = this.#fitting(figure, paper, place) ?? pictureOf(figure, paper, place);
    this.#picture = picture;
    context.save();
    context.setTransform(1, 0, 0, 1, 0, 0);
    // Whole pixels, or lines would blur as the paper glides.
    context.drawImage(picture.canvas, Math.round(x - picture.x), Math.round(y - picture.y));
    context.restore();
  }

  /** The picture that is kept, where it shows all that the pane does. */
  #fitting(figure: Figure, paper: Paper, { scale, x, y, width, height }: Place): Picture | null {
    const kept = this.#picture;
    if (!kept || kept.figure !== figure || kept.paper !== paper || kept.scale !== scale) return null;
    const [left, top] = [x - kept.x, y - kept.y];
    const isWhole = left <= 0 && top <= 0 && left + kept.canvas.width >= width && top + kept.canvas.height >= height;
    return isWhole ? kept : null;
  }
}

function pictureOf(figure: Figure, paper: Paper, { scale, x, y, width, height }: Place): Picture {
  const canvas = document.createElement("canvas");
  const [right, down] = [Math.ceil(width * MARGIN), Math.ceil(height * MARGIN)];
  canvas.width = width + 2 * right;
  canvas.height = height + 2 * down;
  const context = canvas.getContext("2d");
  if (!context) throw new Error("a canvas without a 2d context");
  context.setTransform(scale, 0, 0, scale, x + right, y + down);
  drawFigure(context, figure, paper);
  return { canvas, figure, paper, scale, x: x + right, y: y + down };
}
