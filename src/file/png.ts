import { drawFigure, FIGURE_FONTS } from "../board";
import type { Figure } from "../figure";
import { type InkDrawing, inkBox, paintInkAbove, paintInkBeneath } from "../ink";
import { boxOnPaper, WHITE } from "./whitePaper";

/** Pixels for each CSS pixel: enough for print at 15 cm. */
const SCALE = 3;
/** Browsers refuse larger canvases, silently. */
const LONGEST_SIDE = 8192;

/** A figure and the ink on it as a PNG image, on white. Painted as the board is, since a browser does not wait for the fonts inside an SVG. */
export async function pngOf(figure: Figure, ink: InkDrawing): Promise<Blob> {
  await Promise.all(FIGURE_FONTS.map((font) => document.fonts.load(font)));
  const { x, y, width, height } = boxOnPaper(figure, inkBox(ink));
  const scale = Math.min(SCALE, LONGEST_SIDE / Math.max(width, height));
  const canvas = document.createElement("canvas");
  canvas.width = Math.round(width * scale);
  canvas.height = Math.round(height * scale);
  const context = canvas.getContext("2d");
  if (!context) throw new Error("this browser gives no canvas");
  context.fillStyle = WHITE.sheet;
  context.fillRect(0, 0, canvas.width, canvas.height);
  context.setTransform(scale, 0, 0, scale, -x * scale, -y * scale);
  paintInkBeneath(context, ink, "light");
  drawFigure(context, figure, WHITE);
  paintInkAbove(context, ink, "light");
  return blobOf(canvas);
}

function blobOf(canvas: HTMLCanvasElement): Promise<Blob> {
  return new Promise((resolve, reject) =>
    canvas.toBlob((blob) => (blob ? resolve(blob) : reject(new Error("this browser makes no PNG of it"))), "image/png"),
  );
}
