import type { Point } from "../circuit";
import type { Net } from "./network";

/** A level or upright piece of wire of one net. */
export type WirePiece = { readonly net: Net; readonly from: Point; readonly to: Point };

/** A piece on its line: level ones along x in row `line`, upright ones along y in column `line`. */
type Stretch = { readonly net: Net; readonly line: number; low: number; high: number };

/**
 * The pieces as polylines, none along another: pieces of a net that overlap become one, pieces of a net that cross
 * are divided there so that they join, and pieces that meet at a corner with no third one go on as one polyline.
 */
export function joinedWires(pieces: readonly WirePiece[]): readonly (readonly Point[])[] {
  const level = merged(pieces.filter(({ from, to }) => from[1] === to[1]).map((piece) => stretch(piece, 0)));
  const upright = merged(pieces.filter(({ from, to }) => from[1] !== to[1]).map((piece) => stretch(piece, 1)));
  const segments = [
    ...level.map(
      ({ low, high, line }): Segment => [
        [low, line],
        [high, line],
      ],
    ),
    ...divided(upright, level).map(
      ({ low, high, line }): Segment => [
        [line, low],
        [line, high],
      ],
    ),
  ];
  return polylines(segments);
}

type Segment = readonly [Point, Point];

function stretch({ net, from, to }: WirePiece, along: 0 | 1): Stretch {
  const [a, b] = [from[along], to[along]];
  return { net, line: from[along === 0 ? 1 : 0], low: Math.min(a, b), high: Math.max(a, b) };
}

function merged(stretches: readonly Stretch[]): readonly Stretch[] {
  const sorted = [...stretches].sort((a, b) => a.line - b.line || a.net - b.net || a.low - b.low || a.high - b.high);
  const whole: Stretch[] = [];
  for (const next of sorted) {
    const last = whole.at(-1);
    if (last && last.line === next.line && last.net === next.net && next.low <= last.high) {
      last.high = Math.max(last.high, next.high);
    } else {
      whole.push({ ...next });
    }
  }
  return whole;
}

/** Upright stretches, ended and begun again wherever one crosses a level stretch of its own net. */
function divided(upright: readonly Stretch[], level: readonly Stretch[]): readonly Stretch[] {
  const levelOf = new Map<Net, Stretch[]>();
  for (const each of level) {
    const known = levelOf.get(each.net);
    if (known) known.push(each);
    else levelOf.set(each.net, [each]);
  }
  return upright.flatMap((each) => {
    const rows = (levelOf.get(each.net) ?? [])
      .filter(({ line, low, high }) => each.low < line && line < each.high && low < each.line && each.line < high)
      .map(({ line }) => line)
      .sort((a, b) => a - b);
    const ends = [...rows, each.high];
    return ends.map((high, i) => ({ ...each, low: ends[i - 1] ?? each.low, high }));
  });
}

/** Segments strung together round corners where no other ends. */
function polylines(segments: readonly Segment[]): readonly (readonly Point[])[] {
  const ends = new Map<string, Segment[]>();
  for (const segment of segments) {
    for (const end of segment) {
      const known = ends.get(key(end));
      if (known) known.push(segment);
      else ends.set(key(end), [segment]);
    }
  }
  const used = new Set<Segment>();
  /** The segment that goes on from a point, round a corner. */
  const following = (point: Point, from: Segment): Segment | undefined => {
    const others = ends.get(key(point)) ?? [];
    if (others.length !== 2) return undefined;
    const other = others[0] === from ? others[1] : others[0];
    // Two that meet in line were divided there so that a third one joins them.
    return other && !used.has(other) && isLevel(other) !== isLevel(from) ? other : undefined;
  };
  const grown = (line: Point[], begin: Segment): Point[] => {
    let [last, segment] = [line.at(-1) as Point, following(line.at(-1) as Point, begin)];
    while (segment) {
      used.add(segment);
      last = key(segment[0]) === key(last) ? segment[1] : segment[0];
      line.push(last);
      segment = following(last, segment);
    }
    return line;
  };
  return segments.flatMap((segment) => {
    if (used.has(segment)) return [];
    used.add(segment);
    const ahead = grown([...segment], segment);
    return [grown(ahead.reverse(), segment)];
  });
}

const isLevel = ([from, to]: Segment) => from[1] === to[1];

const key = ([x, y]: Point) => `${x},${y}`;
