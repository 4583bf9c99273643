import { growBox, overlap } from "./box";
import type { Box, Label, Tone } from "./figure";
import { type Anchor, boxAt, label, textSize } from "./text";

/** A label that wants a place: the first candidate that is clear, else the one that covers least. */
export type LabelRequest = {
  readonly candidates: readonly { readonly anchor: Anchor; readonly lines: Label["lines"] }[];
  readonly size: number;
  readonly tone: Tone;
};

/**
 * Places labels one after another, each clear of the obstacles and of the labels before it where any candidate is.
 * Nothing moves for a label, so the same drawing is always labelled in the same way.
 */
export class LabelPlacer {
  readonly labels: Label[] = [];
  readonly #obstacles: Box[];

  constructor(obstacles: readonly Box[]) {
    this.#obstacles = [...obstacles];
  }

  block(boxes: readonly Box[]): void {
    this.#obstacles.push(...boxes);
  }

  /** How much of a box is covered already, in square pixels. */
  covered(box: Box): number {
    return this.#obstacles.reduce((sum, obstacle) => sum + overlap(box, obstacle), 0);
  }

  place(request: LabelRequest): void {
    let best: { readonly label: Label; readonly cost: number } | null = null;
    for (const { anchor, lines } of request.candidates) {
      const box = boxAt(anchor, textSize(lines, request.size));
      const cost = this.covered(growBox(box, 2));
      if (best === null || cost < best.cost) {
        best = { label: label(lines, box, anchor.align, request.size, request.tone), cost };
      }
      if (cost === 0) break;
    }
    if (!best) return;
    this.labels.push(best.label);
    this.#obstacles.push(best.label.box);
  }
}
