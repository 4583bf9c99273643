import type { EntryId } from "../../shared/board";
import { boxOfBoxes, growBox, overlap } from "./box";
import { BoxGrid } from "./boxGrid";
import { type Box, type Label, type Spot, type Stroke, stroke, type Tone } from "./figure";
import { line } from "./frame";
import { type Anchor, boxAt, label, textSize } from "./text";

/** A place that a label may take. `dislike` weighs as much as so many square pixels of something near. */
export type Candidate = {
  readonly anchor: Anchor;
  readonly lines: Label["lines"];
  readonly dislike: number;
};

/** A label that wants a place. */
export type LabelRequest = {
  readonly candidates: readonly Candidate[];
  readonly size: number;
  readonly tone: Tone;
  /** What the label is about. Where every candidate covers something it stands farther off, and a thin line leads there. */
  readonly about: Spot;
  /** What a press on the label means. */
  readonly entry: EntryId | null;
};

type Placed = { readonly request: LabelRequest; label: Label; leader: Spot | null };

/** Pixels that a label keeps from everything else, and the wider room in which it likes to stand alone. */
const GAP = 3;
const ROOM = 20;
/** Touching something counts this many times as much as standing near it. */
const TOUCH = 100;
const ROUNDS = 3;
/** How far from what it is about a label with a leader may stand, and how finely such places are tried, in pixels. */
const FAR = 300;
const FAR_STEP = 12;
const SPARSE_STEP = 20;
const PLACES_COMPARED = 16;
/** Dislike of a leader that runs over something, in pixels of distance. */
const LEADER_CROSSING = 60;

/**
 * Places labels one after another, then lets each choose again among the others a few times, so that a label placed
 * early gives way to one with fewer choices. The same drawing is always labelled in the same way.
 */
export class LabelPlacer {
  readonly #taken = new BoxGrid();
  readonly #marks: Box[] = [];
  readonly #placed: Placed[] = [];

  constructor(obstacles: readonly Box[]) {
    for (const box of obstacles) this.#taken.add(box);
  }

  /** Adds boxes of arrows and signs, which labels must keep clear of too. */
  block(boxes: readonly Box[]): void {
    for (const box of boxes) this.#taken.add(box);
    this.#marks.push(...boxes);
  }

  get marks(): readonly Box[] {
    return this.#marks;
  }

  /** How much of a box is covered already, in square pixels. */
  covered(box: Box): number {
    return areaOf(box, this.#taken.overlapping(box));
  }

  /** How much the best place for a label would cover, in square pixels. */
  leastCovered({ candidates, size }: LabelRequest): number {
    let least = Number.POSITIVE_INFINITY;
    for (const { anchor, lines } of candidates) {
      least = Math.min(least, this.covered(growBox(boxAt(anchor, textSize(lines, size)), GAP)));
      if (least === 0) break;
    }
    return least;
  }

  place(request: LabelRequest): void {
    const best = this.#best(request);
    if (!best) return;
    this.#taken.add(best.label.box);
    this.#placed.push({ request, ...best });
  }

  /** The labels in their final places, and the thin lines that lead from some of them. */
  settle(): { readonly labels: readonly Label[]; readonly leaders: readonly Stroke[] } {
    for (let round = 0; round < ROUNDS; round += 1) {
      let isSettled = true;
      for (const placed of this.#placed) isSettled = this.#chooseAgain(placed) && isSettled;
      if (isSettled) break;
    }
    for (const placed of this.#placed) this.#moveAway(placed);
    const leaders = this.#placed.flatMap(({ label: { box }, leader }) => (leader ? [leaderLine(leader, box)] : []));
    return { labels: this.#placed.map((placed) => placed.label), leaders };
  }

  /** Whether the label stays where it is. */
  #chooseAgain(placed: Placed): boolean {
    const { box } = placed.label;
    this.#taken.remove(box);
    const best = this.#best(placed.request);
    if (best) Object.assign(placed, best);
    this.#taken.add(placed.label.box);
    return placed.label.box.x === box.x && placed.label.box.y === box.y;
  }

  /** Takes a label that still covers something to the nearest free place, with a leader. */
  #moveAway(placed: Placed): void {
    const { label: own, request } = placed;
    this.#taken.remove(own.box);
    if (!this.#taken.isFree(own.box)) {
      const variants = new Set(request.candidates.map(({ lines }) => lines));
      const places = [...variants].flatMap((lines) => this.#freePlaces(request, lines));
      const best = places.sort((a, b) => a.cost - b.cost)[0];
      if (best) {
        const { lines, box } = best;
        placed.label = { ...label(lines, box, "middle", request.size, request.tone), entry: request.entry };
        placed.leader = request.about;
      }
    }
    this.#taken.add(placed.label.box);
  }

  /** The nearest few places around what a label is about where it would cover nothing. */
  #freePlaces({ about, size }: LabelRequest, lines: Label["lines"]) {
    const { width, height } = textSize(lines, size);
    const places: { readonly lines: Label["lines"]; readonly box: Box; readonly cost: number }[] = [];
    for (let distance = FAR_STEP; distance <= FAR && places.length < PLACES_COMPARED; distance += FAR_STEP) {
      for (const { x, y } of ring(about, distance)) {
        const box = { x: x - width / 2, y: y - height / 2, width, height };
        if (!this.#taken.isFree(growBox(box, GAP))) continue;
        places.push({ lines, box, cost: distance + LEADER_CROSSING * this.#crossings(leaderEnds(about, box)) });
      }
    }
    return places;
  }

  /** How many of a few spots along a line are covered. */
  #crossings([from, to]: readonly [Spot, Spot]): number {
    const shares = [0.3, 0.5, 0.7, 0.9];
    const spots = shares.map((share) => ({ x: from.x + share * (to.x - from.x), y: from.y + share * (to.y - from.y) }));
    return spots.filter(({ x, y }) => !this.#taken.isFree({ x: x - 1, y: y - 1, width: 2, height: 2 })).length;
  }

  #best({ candidates, size, tone, entry }: LabelRequest): Omit<Placed, "request"> | null {
    const sizes = new Map<Label["lines"], ReturnType<typeof textSize>>();
    const sizeOf = (lines: Label["lines"]) => {
      const known = sizes.get(lines) ?? textSize(lines, size);
      sizes.set(lines, known);
      return known;
    };
    const boxes = candidates.map(({ anchor, lines }) => boxAt(anchor, sizeOf(lines)));
    if (boxes.length === 0) return null;
    // What is near any of the places is found once, since most of a large drawing is near none of them.
    const near = this.#taken.overlapping(growBox(boxOfBoxes(boxes), ROOM));
    let best: { readonly index: number; readonly cost: number } = { index: 0, cost: Number.POSITIVE_INFINITY };
    for (const [index, { dislike }] of candidates.entries()) {
      if (dislike >= best.cost) continue;
      const box = boxes[index] as Box;
      const cost = TOUCH * areaOf(growBox(box, GAP), near) + areaOf(growBox(box, ROOM), near) + dislike;
      if (cost < best.cost) best = { index, cost };
    }
    const { lines, anchor } = candidates[best.index] as Candidate;
    const box = boxes[best.index] as Box;
    return { label: { ...label(lines, box, anchor.align, size, tone), entry }, leader: null };
  }
}

function leaderLine(from: Spot, box: Box): Stroke {
  return stroke(line(...leaderEnds(from, box)), "soft", 1);
}

/** From what a label is about to the nearest spot of its box. */
function leaderEnds(from: Spot, box: Box): readonly [Spot, Spot] {
  const x = Math.min(Math.max(from.x, box.x - 2), box.x + box.width + 2);
  const y = Math.min(Math.max(from.y, box.y), box.y + box.height);
  return [from, { x, y }];
}

/** Spots on a square around a middle, its sides `distance` away; level ones farther, since labels are wide. */
function ring({ x, y }: Spot, distance: number): readonly Spot[] {
  const steps = Math.max(2, Math.round(distance / SPARSE_STEP));
  return Array.from({ length: 2 * steps + 1 }, (_, i) => (i / steps - 1) * distance).flatMap((along) => [
    { x: x + along, y: y - distance },
    { x: x + along, y: y + distance },
    { x: x - distance, y: y + along },
    { x: x + distance, y: y + along },
  ]);
}

function areaOf(box: Box, others: readonly Box[]): number {
  return others.reduce((area, other) => area + overlap(box, other), 0);
}
