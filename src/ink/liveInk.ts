import type { InkMark, InkSpot } from "../../shared/board";
import { toScreen, type Viewport } from "../board";
import type { Spot } from "../figure";
import { joinTail, type LiveStroke, type PersonMark, readPresence } from "../people";
import { HIGHLIGHTER_OPACITY, inkShade, type Paper } from "./inkColours";
import { arrowPath, markPath, pixelSpot, strokePath, widthOf } from "./inkPath";
import type { InkInProgress } from "./useInkInput";

/** Where somebody has pointed lately, and when, in ms. */
type TrailSpot = { readonly at: InkSpot; readonly time: number };
/** What is being drawn and pointed at on the board just now, by awareness client; strokes are those of others. */
export type LiveOthers = {
  readonly strokes: Map<number, { readonly stroke: LiveStroke; readonly endedAt: number | null }>;
  readonly trails: Map<number, readonly TrailSpot[]>;
};

/** How long a pointer's trail stays, in ms. */
const TRAIL_TIME = 1100;
const TRAIL_LIMIT = 150;
/** How long a stroke that has been let go is kept while it is awaited in the document, in ms. */
const STROKE_PATIENCE = 2000;

export function noLiveOthers(): LiveOthers {
  return { strokes: new Map(), trails: new Map() };
}

/** Takes in what the awareness states say now. `own` is this page's client, whose stroke is painted as it is drawn. */
export function followStates(live: LiveOthers, states: ReadonlyMap<number, unknown>, own: number, now: number): void {
  for (const [client, state] of states) {
    const { stroke, pointer, isPointing } = readPresence(state);
    if (client !== own) {
      const known = live.strokes.get(client);
      if (stroke) live.strokes.set(client, { stroke: joinTail(known?.stroke ?? null, stroke), endedAt: null });
      else if (known) live.strokes.set(client, { ...known, endedAt: known.endedAt ?? now });
    }
    if (client !== own && isPointing && pointer) lengthen(live, client, pointer, now);
  }
  for (const client of live.strokes.keys()) if (!states.has(client)) live.strokes.delete(client);
}

/** Adds a spot to the trail of a client's pointer; where it has not moved, nothing. */
export function lengthen(live: LiveOthers, client: number, at: InkSpot, now: number): void {
  const trail = live.trails.get(client) ?? [];
  const last = trail.at(-1);
  if (last?.at.x !== at.x || last.at.y !== at.y)
    live.trails.set(client, [...trail.slice(-TRAIL_LIMIT), { at, time: now }]);
}

/** Drops what has faded, and strokes that have been placed or waited for long enough. True while anything is left to fade. */
export function fade(live: LiveOthers, marks: readonly InkMark[], now: number): boolean {
  for (const [client, { stroke, endedAt }] of live.strokes) {
    if (endedAt === null) continue;
    if (now - endedAt > STROKE_PATIENCE || marks.some((mark) => mark.id === stroke.id)) live.strokes.delete(client);
  }
  for (const [client, trail] of live.trails) {
    const left = trail.filter(({ time }) => now - time < TRAIL_TIME);
    if (left.length > 0) live.trails.set(client, left);
    else live.trails.delete(client);
  }
  return live.trails.size > 0 || [...live.strokes.values()].some(({ endedAt }) => endedAt !== null);
}

export type LiveScene = {
  readonly view: Viewport;
  readonly paper: Paper;
  readonly own: InkInProgress;
  readonly others: LiveOthers;
  readonly marks: readonly InkMark[];
  /** The colour and the open addend that an own gesture draws with. */
  readonly arrowColour: InkMark["colour"];
  readonly markOf: (client: number) => PersonMark;
  readonly isSeen: (stroke: LiveStroke) => boolean;
  readonly isStill: boolean;
  readonly now: number;
};

/** Whether there is nothing to paint. */
export function isNothingLive({ own, others }: LiveScene): boolean {
  const isOwn = own.stroke !== null || own.gesture.kind !== "none" || own.ring !== null;
  return !isOwn && others.strokes.size === 0 && others.trails.size === 0;
}

/** Paints what is under way, on a canvas in pixels of the screen that has been cleared. */
export function paintLive(context: CanvasRenderingContext2D, scene: LiveScene): void {
  context.lineCap = "round";
  context.lineJoin = "round";
  context.save();
  const { view, own, others, isSeen } = scene;
  context.translate(view.x, view.y);
  context.scale(view.scale, view.scale);
  if (own.stroke) paintStroke(context, own.stroke, scene.paper);
  for (const { stroke } of others.strokes.values()) if (isSeen(stroke)) paintStroke(context, stroke, scene.paper);
  paintGesture(context, scene);
  context.restore();
  for (const [client, trail] of others.trails) paintTrail(context, trail, scene, client);
  if (own.ring) paintRing(context, toScreen(view, pixelSpot(own.ring)), inkShade("brick", scene.paper), 8);
}

function paintStroke(context: CanvasRenderingContext2D, stroke: LiveStroke, paper: Paper): void {
  context.globalAlpha = stroke.kind === "highlighter" ? HIGHLIGHTER_OPACITY : 1;
  line(context, strokePath(stroke.spots), inkShade(stroke.colour, paper), widthOf(stroke));
  context.globalAlpha = 1;
}

function paintGesture(context: CanvasRenderingContext2D, { own, marks, paper, arrowColour }: LiveScene): void {
  const { gesture } = own;
  if (gesture.kind === "arrow") {
    line(context, arrowPath(gesture.from, gesture.to), inkShade(arrowColour, paper), widthOf(gesture));
  }
  if (gesture.kind !== "shift") return;
  const moved = marks.find((mark) => mark.id === gesture.mark);
  context.setLineDash([5, 5]);
  line(context, arrowPath(gesture.from, gesture.to), inkShade("ink", paper), 1.5);
  context.setLineDash([]);
  if (!moved || moved.kind === "note") return;
  const [from, to] = [pixelSpot(gesture.from), pixelSpot(gesture.to)];
  context.translate(to.x - from.x, to.y - from.y);
  context.globalAlpha = 0.6;
  line(context, markPath(moved), inkShade(moved.colour, paper), widthOf(moved));
  context.globalAlpha = 1;
}

/** A line that thins and fades with age, and a ring where the pointer is now; the ring alone where nothing is to move. */
function paintTrail(context: CanvasRenderingContext2D, trail: readonly TrailSpot[], scene: LiveScene, client: number) {
  const { view, now, paper, isStill } = scene;
  const colour = inkShade(scene.markOf(client).colour, paper);
  const spots = trail.map(({ at, time }) => ({ ...toScreen(view, pixelSpot(at)), age: (now - time) / TRAIL_TIME }));
  const last = spots.at(-1);
  if (!last) return;
  if (!isStill) {
    spots.slice(1).forEach((to, i) => {
      const [from, after] = [spots[i] ?? to, spots[i + 2] ?? to];
      // Reports come 20 times a second: from middle to middle, with the spot as handle, they make a round line.
      const [start, end] = [i === 0 ? from : between(from, to), between(to, after)];
      context.globalAlpha = Math.max(0, 1 - to.age) * 0.8;
      const path = `M${start.x} ${start.y}Q${to.x} ${to.y} ${end.x} ${end.y}`;
      line(context, path, colour, 2 + 4 * Math.max(0, 1 - to.age));
    });
  }
  context.globalAlpha = isStill ? 1 : Math.max(0, Math.min(1, 2 * (1 - last.age)));
  paintRing(context, last, colour, 11);
  context.globalAlpha = 1;
}

function between(a: Spot, b: Spot): Spot {
  return { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 };
}

function paintRing(
  context: CanvasRenderingContext2D,
  at: { readonly x: number; readonly y: number },
  colour: string,
  r: number,
) {
  line(context, `M${at.x - r} ${at.y}a${r} ${r} 0 1 1 ${2 * r} 0a${r} ${r} 0 1 1 ${-2 * r} 0`, colour, 2.4);
}

function line(context: CanvasRenderingContext2D, path: string, colour: string, width: number): void {
  context.strokeStyle = colour;
  context.lineWidth = width;
  context.stroke(new Path2D(path));
}
