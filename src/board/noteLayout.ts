import { type Box, type Figure, growBox, type Spot } from "../figure";
import { overlap } from "../figure/box";
import { type Size, toScreen, type Viewport } from "./viewport";

/** A note that belongs beside some entries' symbols. */
export type NoteRequest = { readonly key: string; readonly text: string; readonly at: Box | null };
export type PlacedNote = { readonly key: string; readonly text: string; readonly left: number; readonly top: number };

export const NOTE_WIDTH = 232;
const GAP = 14;

/** Height of a note in pixels, guessed from its text. */
export function noteHeight(text: string): number {
  return 18 + Math.ceil(text.length / 34) * 18;
}

/**
 * Places notes beside what they are about: the side on which a note covers least of symbols, labels and earlier notes,
 * inside the pane. Notes about nothing on the drawing are left to the list.
 */
export function layOutNotes(
  requests: readonly NoteRequest[],
  figure: Figure,
  view: Viewport,
  pane: Size,
): readonly PlacedNote[] {
  const obstacles = figure.covered.map((box) => screenBox(box, view));
  return requests.flatMap((request) => {
    if (!request.at) return [];
    const box = bestPlace(screenBox(request.at, view), noteHeight(request.text), obstacles, pane);
    obstacles.push(growBox(box, 4));
    return [{ key: request.key, text: request.text, left: box.x, top: box.y }];
  });
}

function bestPlace(target: Box, height: number, obstacles: readonly Box[], pane: Size): Box {
  const { x, y } = target;
  const [right, bottom] = [x + target.width + GAP, y + target.height + GAP];
  const [left, top] = [x - NOTE_WIDTH - GAP, y - height - GAP];
  const [midX, midY] = [x + target.width / 2 - NOTE_WIDTH / 2, y + target.height / 2 - height / 2];
  const spots: readonly Spot[] = [
    { x: right, y: midY },
    { x: midX, y: bottom },
    { x: left, y: midY },
    { x: midX, y: top },
    { x: right, y: bottom },
    { x: left, y: bottom },
    { x: right, y: bottom + 40 },
    { x: midX, y: bottom + 60 },
    { x: midX, y: bottom + 110 },
    { x: midX, y: top - 60 },
    { x: right + 90, y: midY },
    { x: left - 90, y: midY },
  ];
  const boxes = spots.map((spot) => insidePane({ ...spot, width: NOTE_WIDTH, height }, pane));
  const cost = (box: Box) =>
    obstacles.reduce((sum, obstacle) => sum + overlap(box, obstacle), 4 * overlap(box, target));
  return boxes.reduce((best, box) => (cost(box) < cost(best) ? box : best));
}

function insidePane(box: Box, pane: Size): Box {
  const x = Math.max(8, Math.min(box.x, pane.width - box.width - 8));
  const y = Math.max(8, Math.min(box.y, pane.height - box.height - 8));
  return { ...box, x, y };
}

export function screenBox(box: Box, view: Viewport): Box {
  const corner = toScreen(view, box);
  return { ...corner, width: box.width * view.scale, height: box.height * view.scale };
}
