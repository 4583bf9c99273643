import { type Figure, type Label, LINE_HEIGHT, type Paper, type Run, type Stroke, toneColour } from "../figure";
import { INDEX_SCALE, SYMBOL_SCALE } from "../figure/textWidth";

type Context = CanvasRenderingContext2D;

const TEXT_FONT = '"Atkinson Hyperlegible", sans-serif';
const SYMBOL_FONT = 'KaTeX_Math, "Atkinson Hyperlegible", serif';

/** Paints a figure on a canvas whose transform is already that of the drawing. */
export function drawFigure(context: Context, figure: Pick<Figure, "strokes" | "labels">, paper: Paper): void {
  context.lineCap = "round";
  context.lineJoin = "round";
  for (const stroke of figure.strokes) drawStroke(context, stroke, paper);
  context.setLineDash([]);
  for (const label of figure.labels) drawLabel(context, label, paper);
}

// Strokes and labels never change, and are painted again at every step of panning: what is read out of their text is
// kept for as long as they are.
const paths = new WeakMap<Stroke, Path2D>();
const widths = new WeakMap<Label, readonly (readonly number[])[]>();

function pathOf(stroke: Stroke): Path2D {
  const known = paths.get(stroke) ?? new Path2D(stroke.path);
  paths.set(stroke, known);
  return known;
}

function drawStroke(context: Context, stroke: Stroke, paper: Paper): void {
  const path = pathOf(stroke);
  const colour = toneColour(stroke.tone, paper);
  if (stroke.fill !== "none") {
    context.fillStyle = stroke.fill === "paper" ? paper.sheet : colour;
    context.fill(path);
  }
  context.strokeStyle = colour;
  context.lineWidth = stroke.weight;
  context.setLineDash(stroke.dash as number[]); // which copies it
  context.stroke(path);
}

/** Paints a label on a halo of paper, so that it stays legible over the dots of the grid. */
function drawLabel(context: Context, label: Label, paper: Paper): void {
  const { box, align, size } = label;
  const runWidths = widthsOf(context, label);
  context.textBaseline = "alphabetic";
  context.strokeStyle = paper.sheet;
  context.lineWidth = 4;
  context.fillStyle = toneColour(label.tone, paper);
  label.lines.forEach((runs, i) => {
    const width = (runWidths[i] ?? []).reduce((sum, each) => sum + each, 0);
    let x = align === "start" ? box.x : align === "end" ? box.x + box.width - width : box.x + (box.width - width) / 2;
    const y = box.y + size * LINE_HEIGHT * i + size;
    runs.forEach((run, k) => {
      context.font = fontOf(run, size);
      const baseline = run.style === "index" ? y + size * 0.22 : y;
      context.strokeText(run.text, x, baseline);
      context.fillText(run.text, x, baseline);
      x += runWidths[i]?.[k] ?? 0;
    });
  });
}

function widthsOf(context: Context, label: Label): readonly (readonly number[])[] {
  const known = widths.get(label);
  if (known) return known;
  const measured = label.lines.map((runs) =>
    runs.map((run) => {
      context.font = fontOf(run, label.size);
      return context.measureText(run.text).width;
    }),
  );
  widths.set(label, measured);
  return measured;
}

function fontOf({ style }: Run, size: number): string {
  switch (style) {
    case "plain":
      return `${size}px ${TEXT_FONT}`;
    case "bold":
      return `700 ${size}px ${TEXT_FONT}`;
    case "symbol":
      return `italic ${size * SYMBOL_SCALE}px ${SYMBOL_FONT}`;
    case "index":
      return `${size * INDEX_SCALE}px ${TEXT_FONT}`;
  }
}

/** The fonts a figure is set in, to be loaded before it is painted for good. */
export const FIGURE_FONTS: readonly string[] = [
  '16px "Atkinson Hyperlegible"',
  '700 16px "Atkinson Hyperlegible"',
  "italic 16px KaTeX_Math",
];
