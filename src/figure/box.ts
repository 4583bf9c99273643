import type { Box, Spot } from "./figure";

/** The smallest box around some spots, grown by a margin on each side. Of no spots: an empty box at the origin. */
export function boxAround(spots: readonly Spot[], margin = 0): Box {
  if (spots.length === 0) return { x: 0, y: 0, width: 0, height: 0 };
  const [xs, ys] = [spots.map((s) => s.x), spots.map((s) => s.y)];
  const [x, y] = [Math.min(...xs) - margin, Math.min(...ys) - margin];
  return { x, y, width: Math.max(...xs) + margin - x, height: Math.max(...ys) + margin - y };
}

export function boxOfBoxes(boxes: readonly Box[]): Box {
  return boxAround(
    boxes.flatMap((b) => [
      { x: b.x, y: b.y },
      { x: b.x + b.width, y: b.y + b.height },
    ]),
  );
}

export function growBox(box: Box, margin: number): Box {
  return { x: box.x - margin, y: box.y - margin, width: box.width + 2 * margin, height: box.height + 2 * margin };
}

/** Area that two boxes share, 0 where they are apart. */
export function overlap(a: Box, b: Box): number {
  const width = Math.min(a.x + a.width, b.x + b.width) - Math.max(a.x, b.x);
  const height = Math.min(a.y + a.height, b.y + b.height) - Math.max(a.y, b.y);
  return width > 0 && height > 0 ? width * height : 0;
}

export function isInside(spot: Spot, box: Box): boolean {
  return spot.x >= box.x && spot.x <= box.x + box.width && spot.y >= box.y && spot.y <= box.y + box.height;
}
