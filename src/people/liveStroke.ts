import {
  type EntryId,
  entryId,
  INK_COLOURS,
  type InkSpot,
  type InkStroke,
  readSpots,
  spotsText,
} from "../../shared/board";

/** A stroke while it is drawn. It keeps its id when it is placed, which is how a page knows that it has been. */
export type LiveStroke = Pick<InkStroke, "id" | "kind" | "colour" | "card" | "spots">;

/**
 * The end of a live stroke as it is shown to others: its spots from number `start` on. A page that draws quickly sends
 * only what is new, and a little before it, since on a slow line updates are passed over.
 */
export type StrokeTail = Omit<LiveStroke, "spots"> & { readonly start: number; readonly spots: string };

/** Spots that are sent again with each update. */
const OVERLAP = 48;
/** Most spots of one update. */
const TAIL_LIMIT = 160;
/** Most spots that are kept of somebody's live stroke, whatever they send. */
const LIVE_LIMIT = 20_000;

/** The end of a stroke, where others have been sent `sent` spots. */
export function strokeTail({ spots, ...stroke }: LiveStroke, sent: number): StrokeTail {
  const start = Math.max(0, sent - OVERLAP, spots.length - TAIL_LIMIT);
  return { ...stroke, start, spots: spotsText(spots.slice(start)) };
}

/** What is known of a live stroke after its next update; where spots are missing between, a straight line stands in. */
export function joinTail(known: LiveStroke | null, { start, spots: text, ...stroke }: StrokeTail): LiveStroke {
  const tail = readSpots(text) ?? [];
  const before = known?.id === stroke.id ? known.spots : [];
  const kept = start <= before.length ? before.slice(0, start) : before;
  return { ...stroke, spots: [...kept, ...tail].slice(0, LIVE_LIMIT) };
}

/** Reads a tail as it comes from another page, which may be of anybody's making; null where it is none. */
export function readStrokeTail(value: unknown): StrokeTail | null {
  if (typeof value !== "object" || value === null) return null;
  const { id, kind, colour, card, start, spots } = value as Readonly<Record<string, unknown>>;
  const known = INK_COLOURS.find((each) => each === colour);
  if (typeof id !== "string" || id === "" || !known || (kind !== "pen" && kind !== "highlighter")) return null;
  if (typeof start !== "number" || !Number.isInteger(start) || start < 0) return null;
  if (typeof spots !== "string" || (readSpots(spots)?.length ?? TAIL_LIMIT + 1) > TAIL_LIMIT) return null;
  return { id: entryId(id), kind, colour: known, card: readCard(card), start, spots };
}

function readCard(card: unknown): readonly EntryId[] {
  return Array.isArray(card) ? card.slice(0, 50).filter((id): id is EntryId => typeof id === "string") : [];
}

/** Whether a spot lies far enough from the last one of a stroke to be worth keeping, at this scale of the view. */
export function isWorthKeeping(spots: readonly InkSpot[], spot: InkSpot, step: number): boolean {
  const last = spots.at(-1);
  return !last || Math.hypot(spot.x - last.x, spot.y - last.y) >= step;
}
