import type { InkNote } from "../../shared/board";
import { unreachable } from "../../shared/quantity";
import { type Box, boxAround, boxOfBoxes, type Spot } from "../figure";

/**
 * A piece of a note's words or mathematics, in pixels of the drawing: what a browser shows of them, taken apart so that
 * a canvas can paint it and an SVG can hold it.
 */
export type NotePiece =
  | {
      readonly kind: "text";
      readonly text: string;
      /** Left end of the baseline. */
      readonly x: number;
      readonly y: number;
      readonly width: number;
      readonly face: Face;
      readonly size: number;
      readonly colour: string;
    }
  /** A straight line: of a fraction, a frame, a table. */
  | {
      readonly kind: "line";
      readonly from: Spot;
      readonly to: Spot;
      readonly width: number;
      readonly colour: string;
      readonly isDashed: boolean;
    }
  /**
   * A shape that is drawn and not written: a root's sign, a long arrow, a brace. `path` is in its own measure, which
   * `matrix` takes to the drawing's; it is seen inside of `clip` alone. Filled, or stroked where `width` is not null.
   */
  | {
      readonly kind: "shape";
      readonly path: string;
      readonly matrix: Matrix;
      readonly clip: Box;
      readonly width: number | null;
      readonly colour: string;
    };

/** A font as `@font-face` names it. */
export type Face = { readonly family: string; readonly weight: string; readonly style: string };
/** a, b, c, d, e, f of SVG's and the canvas's matrices. */
export type Matrix = readonly [number, number, number, number, number, number];

export type DrawnNote = { readonly note: InkNote; readonly pieces: readonly NotePiece[]; readonly box: Box };

/** The box of a note: that of its element, which a long formula leaves, and those of its pieces. */
export function noteBox(element: Box, pieces: readonly NotePiece[]): Box {
  return boxOfBoxes([element, ...pieces.map(pieceBox)]);
}

function pieceBox(piece: NotePiece): Box {
  switch (piece.kind) {
    case "text":
      return { x: piece.x, y: piece.y - piece.size, width: piece.width, height: 1.25 * piece.size };
    case "line":
      return boxAround([piece.from, piece.to], piece.width / 2);
    case "shape":
      return piece.clip;
    default:
      return unreachable(piece);
  }
}

/** Whether a face is one that mathematics is set in. */
export function isMathFace({ family }: Face): boolean {
  return family.startsWith("KaTeX_");
}

export function fontOf({ family, weight, style }: Face, size: number): string {
  return `${style} ${weight} ${size}px "${family}", "Atkinson Hyperlegible", sans-serif`;
}
