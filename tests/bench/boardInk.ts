import type * as Y from "yjs";
import { applyCommand, type Command, entryId, INK_COLOURS, type InkSpot, LOCAL } from "../../shared/board";

/** As much ink as a long lesson leaves: 3,000 points of it in strokes as people write, and some arrows and words. */
export const INK = { strokes: 100, pointsEach: 30, highlighters: 12, arrows: 10, notes: 10 };

/** Where the strokes, arrows and notes of the bench lie, spread over the mesh; the same in every run. */
export const STROKES: readonly (readonly InkSpot[])[] = Array.from({ length: INK.strokes }, (_, i) =>
  i < INK.highlighters ? marked(corner(i)) : written(corner(i), i),
);
export const ARROWS: readonly (readonly [InkSpot, InkSpot])[] = Array.from({ length: INK.arrows }, (_, i) => {
  const { x, y } = corner(7 * i + 3);
  return [
    { x, y },
    { x: x + 4, y: y - 2 },
  ];
});
export const NOTES: readonly InkSpot[] = Array.from({ length: INK.notes }, (_, i) => corner(9 * i + 5));

/** Upper left corner of the place of the i-th mark, ten by ten of them. */
function corner(i: number): InkSpot {
  return { x: 6 * (i % 10) + 1, y: 6 * Math.floor(i / 10) + 1 };
}

/** A word in running hand: loops that go on to the right, tall and low in turn. */
function written({ x, y }: InkSpot, seed: number): readonly InkSpot[] {
  return Array.from({ length: INK.pointsEach }, (_, k) => {
    const t = (k / 5) * Math.PI;
    const height = 0.6 + 0.3 * Math.sin(seed + k / 4);
    return { x: x + k * 0.12 + 0.25 * Math.sin(t + seed), y: y + 1 + height * Math.cos(t) };
  });
}

/** A line that a hand drew along something, nearly straight. */
function marked({ x, y }: InkSpot): readonly InkSpot[] {
  return Array.from({ length: INK.pointsEach }, (_, k) => ({ x: x + k * 0.15, y: y + 0.1 * Math.sin(k / 3) }));
}

/** Puts the ink into a room's document. */
export function placeInk(doc: Y.Doc): void {
  const colour = (i: number) => INK_COLOURS[i % INK_COLOURS.length] ?? "ink";
  const common = (name: string, i: number) => ({ id: entryId(`bench-${name}-${i}`), colour: colour(i), card: [] });
  const commands: readonly Command[] = [
    ...STROKES.map((spots, i): Command => {
      const kind = i < INK.highlighters ? "highlighter" : "pen";
      return { do: "placeStroke", ...common("stroke", i), kind, spots };
    }),
    ...ARROWS.map(([from, to], i): Command => ({ do: "placeArrow", ...common("arrow", i), from, to })),
    ...NOTES.map(
      (at, i): Command => ({ do: "placeNote", ...common("note", i), at, text: `loop ${i}: $R_{${i}} I_a$` }),
    ),
  ];
  applyCommand(doc, { do: "all", commands }, LOCAL);
}
