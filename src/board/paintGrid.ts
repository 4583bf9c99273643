import { type Box, GRID, type Paper } from "../figure";

type Context = CanvasRenderingContext2D;

/** Radius of a dot in pixels of the page, whatever the scale. */
const RADIUS = 1.2;

/** The part of the drawing that a canvas shows, its transform being that of the drawing. */
export function seenBox(context: Context): Box {
  const { a: scale, e: x, f: y } = context.getTransform();
  const { width, height } = context.canvas;
  return { x: -x / scale, y: -y / scale, width: width / scale, height: height / scale };
}

/** Paints the dots of the grid that a canvas shows: one row of them, copied to where each row is. */
export function paintGrid(context: Context, paper: Paper): void {
  const { a: scale, e: originX, f: originY } = context.getTransform();
  const step = GRID * scale;
  const radius = RADIUS * window.devicePixelRatio;
  const row = document.createElement("canvas");
  row.width = context.canvas.width;
  row.height = 2 * Math.ceil(radius) + 2;
  const pen = row.getContext("2d");
  if (!pen) return;
  const middle = row.height / 2;
  pen.fillStyle = paper.dot;
  pen.beginPath();
  for (let x = (((originX % step) + step) % step) - step; x < row.width + step; x += step) {
    pen.moveTo(x + radius, middle);
    pen.arc(x, middle, radius, 0, 2 * Math.PI);
  }
  pen.fill();
  context.save();
  context.setTransform(1, 0, 0, 1, 0, 0);
  for (let y = (((originY % step) + step) % step) - step; y < context.canvas.height + step; y += step)
    context.drawImage(row, 0, y - middle);
  context.restore();
}
