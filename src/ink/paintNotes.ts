import { unreachable } from "../../shared/quantity";
import { type DrawnNote, fontOf, type NotePiece } from "./noteDrawing";

/** Paints notes on a canvas whose transform is that of the drawing. */
export function paintNotes(context: CanvasRenderingContext2D, notes: readonly DrawnNote[]): void {
  context.textBaseline = "alphabetic";
  for (const { pieces } of notes) for (const piece of pieces) paintPiece(context, piece);
}

function paintPiece(context: CanvasRenderingContext2D, piece: NotePiece): void {
  switch (piece.kind) {
    case "text":
      context.font = fontOf(piece.face, piece.size);
      context.fillStyle = piece.colour;
      context.fillText(piece.text, piece.x, piece.y);
      return;
    case "line":
      context.strokeStyle = piece.colour;
      context.lineWidth = piece.width;
      context.lineCap = "butt";
      context.setLineDash(piece.isDashed ? [3 * piece.width, 3 * piece.width] : []);
      context.beginPath();
      context.moveTo(piece.from.x, piece.from.y);
      context.lineTo(piece.to.x, piece.to.y);
      context.stroke();
      context.setLineDash([]);
      return;
    case "shape":
      paintShape(context, piece);
      return;
    default:
      unreachable(piece);
  }
}

function paintShape(context: CanvasRenderingContext2D, piece: Extract<NotePiece, { kind: "shape" }>): void {
  const { x, y, width, height } = piece.clip;
  context.save();
  context.beginPath();
  context.rect(x, y, width, height);
  context.clip();
  context.transform(...piece.matrix);
  if (piece.width === null) {
    context.fillStyle = piece.colour;
    context.fill(new Path2D(piece.path));
  } else {
    context.strokeStyle = piece.colour;
    context.lineWidth = piece.width;
    context.stroke(new Path2D(piece.path));
  }
  context.restore();
}
