type Context = CanvasRenderingContext2D;

/**
 * Paints something on a canvas whose transform is already that of the drawing. The same function for as long as it
 * paints the same.
 */
export type Painting = (context: Context) => void;

/** A picture reaches this share of the pane beyond it on each side, so that it serves for some way of panning. */
const MARGIN = 0.5;

/** Where a drawing lies on a canvas, in device pixels. */
type Place = {
  readonly scale: number;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
};

export type Picture = {
  readonly canvas: CanvasImageSource & { readonly width: number; readonly height: number };
  /** Scale in device pixels, and where the drawing's origin lies on the picture. */
  readonly scale: number;
  readonly x: number;
  readonly y: number;
};

/** A picture is stretched by at most this much, either way, before it is painted anew. */
const STRETCH = 1.6;

/**
 * Paints a drawing, and keeps a picture of it while nothing but its place and size change: a step of panning then copies
 * pixels and one of zooming stretches them, and neither strokes a line. What is new is painted as it is, since its
 * picture might not serve twice.
 */
export class KeptPicture {
  #picture: Picture | null = null;
  #last: Painting | null = null;

  /** Paints the drawing; `isSharp` asks for a picture of exactly this scale. */
  paint(context: Context, painting: Painting, isSharp: boolean): void {
    const { a: scale, e: x, f: y } = context.getTransform();
    if (this.#last !== painting) {
      this.#last = painting;
      this.#picture = null;
      painting(context);
      return;
    }
    const { width, height } = context.canvas;
    const place = { scale, x, y, width, height };
    const kept = this.#picture;
    const picture = kept && canServe(kept, place, isSharp) ? kept : pictureOf(painting, place);
    this.#picture = picture;
    context.save();
    context.setTransform(1, 0, 0, 1, 0, 0);
    copy(context, picture, place);
    context.restore();
  }
}

/** Whether a picture shows all that the pane does, near enough in scale. */
export function canServe({ canvas, x, y, scale }: Picture, place: Place, isSharp: boolean): boolean {
  const stretch = place.scale / scale;
  if (stretch !== 1 && (isSharp || stretch > STRETCH || stretch < 1 / STRETCH)) return false;
  const [left, top] = [place.x - x * stretch, place.y - y * stretch];
  const [right, bottom] = [left + canvas.width * stretch, top + canvas.height * stretch];
  return left <= 0 && top <= 0 && right >= place.width && bottom >= place.height;
}

function copy(context: Context, { canvas, x, y, scale }: Picture, place: Place): void {
  const stretch = place.scale / scale;
  const [left, top] = [place.x - x * stretch, place.y - y * stretch];
  // Whole pixels, or lines would blur as the paper glides.
  if (stretch === 1) context.drawImage(canvas, Math.round(left), Math.round(top));
  else context.drawImage(canvas, left, top, canvas.width * stretch, canvas.height * stretch);
}

function pictureOf(painting: Painting, { scale, x, y, width, height }: Place): Picture {
  const canvas = document.createElement("canvas");
  const [right, down] = [Math.ceil(width * MARGIN), Math.ceil(height * MARGIN)];
  canvas.width = width + 2 * right;
  canvas.height = height + 2 * down;
  const context = canvas.getContext("2d");
  if (!context) throw new Error("a canvas without a 2d context");
  context.setTransform(scale, 0, 0, scale, x + right, y + down);
  painting(context);
  return { canvas, scale, x: x + right, y: y + down };
}
