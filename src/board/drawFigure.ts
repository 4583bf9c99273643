import { type Figure, type Label, LINE_HEIGHT, PAPER, type Run, type Stroke, toneColour } from "../figure";
import { INDEX_SCALE, SYMBOL_SCALE } from "../figure/textWidth";

type Context = CanvasRenderingContext2D;

const TEXT_FONT = '"Atkinson Hyperlegible", sans-serif';
const SYMBOL_FONT = 'KaTeX_Math, "Atkinson Hyperlegible", serif';

/** Paints a figure on a canvas whose transform is already that of the drawing. */
export function drawFigure(context: Context, figure: Pick<Figure, "strokes" | "labels">): void {
  context.lineCap = "round";
  context.lineJoin = "round";
  for (const stroke of figure.strokes) drawStroke(context, stroke);
  context.setLineDash([]);
  for (const label of figure.labels) drawLabel(context, label);
}

function drawStroke(context: Context, stroke: Stroke): void {
  const path = new Path2D(stroke.path);
  const colour = toneColour(stroke.tone);
  if (stroke.fill !== "none") {
    context.fillStyle = stroke.fill === "paper" ? PAPER.sheet : colour;
    context.fill(path);
  }
  context.strokeStyle = colour;
  context.lineWidth = stroke.weight;
  context.setLineDash([...stroke.dash]);
  context.stroke(path);
}

/** Paints a label on a halo of paper, so that it stays legible over the dots of the grid. */
function drawLabel(context: Context, label: Label): void {
  const { box, align, size } = label;
  context.textBaseline = "alphabetic";
  label.lines.forEach((runs, i) => {
    const widths = runs.map((run) => {
      context.font = fontOf(run, size);
      return context.measureText(run.text).width;
    });
    const width = widths.reduce((sum, each) => sum + each, 0);
    let x = align === "start" ? box.x : align === "end" ? box.x + box.width - width : box.x + (box.width - width) / 2;
    const y = box.y + size * LINE_HEIGHT * i + size;
    runs.forEach((run, k) => {
      context.font = fontOf(run, size);
      const baseline = run.style === "index" ? y + size * 0.22 : y;
      context.strokeStyle = PAPER.sheet;
      context.lineWidth = 4;
      context.strokeText(run.text, x, baseline);
      context.fillStyle = toneColour(label.tone);
      context.fillText(run.text, x, baseline);
      x += widths[k] as number;
    });
  });
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
