import { boxOfBoxes, growBox, overlap } from "./box";
import type { Box, Label, Tone } from "./figure";
import { type Anchor, boxAt, label, textSize } from "./text";

/** A place that a label may take. `dislike` weighs as much as so many square pixels of something near. */
export type Candidate = { readonly anchor: Anchor; readonly lines: Label["lines"]; readonly dislike: number };

/** A label that wants a place. */
export type LabelRequest = {
  readonly candidates: readonly Candidate[];
  readonly size: number;
  readonly tone: Tone;
};

/** Pixels that a label keeps from everything else, and the wider room in which it likes to stand alone. */
const GAP = 3;
const ROOM = 20;
/** Touching something counts this many times as much as standing near it. */
const TOUCH = 100;
const ROUNDS = 3;

/**
 * Places labels one after another, then lets each choose again among the others a few times, so that a label placed
 * early gives way to one with fewer choices. The same drawing is always labelled in the same way.
 */
export class LabelPlacer {
  readonly #obstacles: Box[];
  readonly #placed: { readonly request: LabelRequest; label: Label }[] = [];

  constructor(obstacles: readonly Box[]) {
    this.#obstacles = [...obstacles];
  }

  /** Adds boxes that labels must keep clear of. */
  block(boxes: readonly Box[]): void {
    this.#obstacles.push(...boxes);
  }

  /** How much of a box is covered already, in square pixels. */
  covered(box: Box): number {
    return areaOf(box, this.#overlapping(box, null));
  }

  /** How much the best place for a label would cover, in square pixels. */
  leastCovered({ candidates, size }: LabelRequest): number {
    const boxes = candidates.map(({ anchor, lines }) => growBox(boxAt(anchor, textSize(lines, size)), GAP));
    return Math.min(...boxes.map((box) => this.covered(box)));
  }

  place(request: LabelRequest): void {
    const best = this.#best(request, null);
    if (best) this.#placed.push({ request, label: best });
  }

  /** The labels in their final places. */
  settle(): readonly Label[] {
    for (let round = 0; round < ROUNDS; round += 1) {
      for (const placed of this.#placed) placed.label = this.#best(placed.request, placed.label) ?? placed.label;
    }
    return this.#placed.map((placed) => placed.label);
  }

  #best({ candidates, size, tone }: LabelRequest, own: Label | null): Label | null {
    const boxes = candidates.map(({ anchor, lines }) => boxAt(anchor, textSize(lines, size)));
    // What is near any of the places is found once, since most of a large drawing is near none of them.
    const near = this.#overlapping(growBox(boxOfBoxes(boxes), ROOM), own);
    let best: { readonly label: Label; readonly cost: number } | null = null;
    for (const [i, { anchor, lines, dislike }] of candidates.entries()) {
      const box = boxes[i] as Box;
      const cost = TOUCH * areaOf(growBox(box, GAP), near) + areaOf(growBox(box, ROOM), near) + dislike;
      if (best === null || cost < best.cost) best = { label: label(lines, box, anchor.align, size, tone), cost };
    }
    return best?.label ?? null;
  }

  #overlapping(box: Box, own: Label | null): readonly Box[] {
    const labels = this.#placed.flatMap((placed) => (placed.label === own ? [] : [placed.label.box]));
    return [...this.#obstacles, ...labels].filter((other) => overlap(box, other) > 0);
  }
}

function areaOf(box: Box, others: readonly Box[]): number {
  return others.reduce((area, other) => area + overlap(box, other), 0);
}
