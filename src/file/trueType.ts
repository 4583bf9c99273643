/**
 * Outlines of a TrueType font's glyphs as SVG path data. Reads of the format what outlines need, the tables head, loca,
 * glyf and cmap (its formats 4 and 12), by ISO/IEC 14496-22 (Open Font Format), and no more: hinting, kerning and
 * substitution are the browser's affair, which has placed the letters already.
 */
export type Outlines = {
  /** Units of the paths to one em. */
  readonly unitsPerEm: number;
  /** The outline of a character, y downward; null where the font has no glyph for it, empty for a space. */
  readonly pathOf: (character: string) => string | null;
};

type Tables = ReadonlyMap<string, DataView>;
type Spot = { readonly x: number; readonly y: number; readonly isOn: boolean };
type Contour = readonly Spot[];

/** Throws a RangeError for bytes that are no such font. */
export function readTrueType(bytes: ArrayBuffer): Outlines {
  const tables = tablesOf(new DataView(bytes));
  const head = table(tables, "head");
  const places = placesOf(table(tables, "loca"), head.getInt16(50) === 1);
  const glyf = table(tables, "glyf");
  const glyphOf = characterMap(table(tables, "cmap"));
  return {
    unitsPerEm: head.getUint16(18),
    pathOf: (character) => {
      const glyph = glyphOf(character.codePointAt(0) ?? 0);
      return glyph === 0 ? null : contoursOf(glyph, glyf, places, 0).map(contourPath).join("");
    },
  };
}

function tablesOf(font: DataView): Tables {
  if (font.byteLength < 12 || font.getUint32(0) !== 0x00010000)
    throw new RangeError("these bytes are no TrueType font");
  const records = Array.from({ length: font.getUint16(4) }, (_, i) => 12 + 16 * i);
  return new Map(
    records.map((at) => [
      String.fromCharCode(...[0, 1, 2, 3].map((k) => font.getUint8(at + k))),
      new DataView(font.buffer, font.getUint32(at + 8), font.getUint32(at + 12)),
    ]),
  );
}

function table(tables: Tables, name: string): DataView {
  const found = tables.get(name);
  if (!found) throw new RangeError(`the font has no table ${name}`);
  return found;
}

/** Where each glyph's outline begins in glyf; it ends where the next begins. */
function placesOf(loca: DataView, isLong: boolean): readonly number[] {
  const size = isLong ? 4 : 2;
  return Array.from({ length: loca.byteLength / size }, (_, i) =>
    isLong ? loca.getUint32(4 * i) : 2 * loca.getUint16(2 * i),
  );
}

/** The glyph of a code point, 0 where there is none. */
function characterMap(cmap: DataView): (code: number) => number {
  const places = Array.from({ length: cmap.getUint16(2) }, (_, i) => cmap.getUint32(4 + 8 * i + 4));
  const maps = places.map((at) => new DataView(cmap.buffer, cmap.byteOffset + at));
  const long = maps.find((map) => map.getUint16(0) === 12);
  if (long) return (code) => glyphInGroups(long, code);
  const short = maps.find((map) => map.getUint16(0) === 4);
  if (short) return (code) => glyphInSegments(short, code);
  throw new RangeError("the font maps its characters in a format that is not read");
}

function glyphInGroups(map: DataView, code: number): number {
  for (let i = 0; i < map.getUint32(12); i += 1) {
    const [first, last] = [map.getUint32(16 + 12 * i), map.getUint32(20 + 12 * i)];
    if (code >= first && code <= last) return map.getUint32(24 + 12 * i) + code - first;
  }
  return 0;
}

function glyphInSegments(map: DataView, code: number): number {
  const doubled = map.getUint16(6); // twice the number of segments
  for (let i = 0; i < doubled; i += 2) {
    if (map.getUint16(14 + i) < code) continue;
    const start = map.getUint16(16 + doubled + i);
    if (start > code) return 0;
    const delta = map.getUint16(16 + 2 * doubled + i);
    const rangeAt = 16 + 3 * doubled + i;
    const range = map.getUint16(rangeAt);
    if (range === 0) return (code + delta) & 0xffff;
    const glyph = map.getUint16(rangeAt + range + 2 * (code - start));
    return glyph === 0 ? 0 : (glyph + delta) & 0xffff;
  }
  return 0;
}

/** A glyph of glyphs holds others, but no font of sense goes deeper than this. */
const DEEPEST = 5;

function contoursOf(glyph: number, glyf: DataView, places: readonly number[], depth: number): readonly Contour[] {
  const [start, end] = [places[glyph], places[glyph + 1]];
  if (start === undefined || end === undefined || end <= start || depth > DEEPEST) return [];
  const view = new DataView(glyf.buffer, glyf.byteOffset + start, end - start);
  const count = view.getInt16(0);
  return count >= 0 ? simpleContours(view, count) : compositeContours(view, glyf, places, depth);
}

const ON_CURVE = 1;
const X_SHORT = 2;
const Y_SHORT = 4;
const REPEATED = 8;
/** With a short step: it is positive. Without: there is no step. */
const X_SAME = 16;
const Y_SAME = 32;

function simpleContours(view: DataView, count: number): readonly Contour[] {
  const ends = Array.from({ length: count }, (_, i) => view.getUint16(10 + 2 * i));
  const total = (ends.at(-1) ?? -1) + 1;
  let at = 10 + 2 * count;
  at += 2 + view.getUint16(at); // past the instructions
  const flags: number[] = [];
  while (flags.length < total) {
    const flag = view.getUint8(at++);
    flags.push(flag);
    if (flag & REPEATED) for (let again = view.getUint8(at++); again > 0; again -= 1) flags.push(flag);
  }
  const steps = (short: number, same: number) => {
    let value = 0;
    return flags.slice(0, total).map((flag) => {
      if (flag & short) value += view.getUint8(at++) * (flag & same ? 1 : -1);
      else if (!(flag & same)) {
        value += view.getInt16(at);
        at += 2;
      }
      return value;
    });
  };
  const xs = steps(X_SHORT, X_SAME);
  const ys = steps(Y_SHORT, Y_SAME);
  const spots = xs.map((x, i) => ({ x, y: ys[i] ?? 0, isOn: ((flags[i] ?? 0) & ON_CURVE) !== 0 }));
  return ends.map((end, i) => spots.slice(i === 0 ? 0 : (ends[i - 1] ?? 0) + 1, end + 1));
}

const WORDS = 1;
const OFFSETS = 2;
const ONE_SCALE = 8;
const MORE = 32;
const TWO_SCALES = 64;
const FOUR_SCALES = 128;

function compositeContours(
  view: DataView,
  glyf: DataView,
  places: readonly number[],
  depth: number,
): readonly Contour[] {
  const contours: Contour[] = [];
  let at = 10;
  for (let flags = MORE; flags & MORE; ) {
    flags = view.getUint16(at);
    const glyph = view.getUint16(at + 2);
    const [dx, dy] =
      flags & WORDS ? [view.getInt16(at + 4), view.getInt16(at + 6)] : [view.getInt8(at + 4), view.getInt8(at + 5)];
    at += flags & WORDS ? 8 : 6;
    const scale = (place: number) => view.getInt16(at + 2 * place) / 16_384;
    const [a, b, c, d] =
      flags & ONE_SCALE
        ? [scale(0), 0, 0, scale(0)]
        : flags & TWO_SCALES
          ? [scale(0), 0, 0, scale(1)]
          : flags & FOUR_SCALES
            ? [scale(0), scale(1), scale(2), scale(3)]
            : [1, 0, 0, 1];
    at += flags & ONE_SCALE ? 2 : flags & TWO_SCALES ? 4 : flags & FOUR_SCALES ? 8 : 0;
    // Placing by points that are to meet is not read: fonts that are set on the web place by offsets.
    const [x0, y0] = flags & OFFSETS ? [dx, dy] : [0, 0];
    const moved = ({ x, y, isOn }: Spot): Spot => ({ x: a * x + c * y + x0, y: b * x + d * y + y0, isOn });
    contours.push(...contoursOf(glyph, glyf, places, depth + 1).map((contour) => contour.map(moved)));
  }
  return contours;
}

/** A contour of quadratic curves: between two handles in a row lies a spot that is not written. */
function contourPath(contour: Contour): string {
  const [first] = contour;
  const last = contour.at(-1);
  if (!first || !last) return "";
  const start = first.isOn ? first : last.isOn ? last : between(first, last);
  const rest = first.isOn ? contour.slice(1) : contour;
  let path = `M${text(start)}`;
  let handle: Spot | null = null;
  for (const spot of [...rest, start]) {
    if (spot.isOn) path += handle ? `Q${text(handle)} ${text(spot)}` : `L${text(spot)}`;
    else if (handle) path += `Q${text(handle)} ${text(between(handle, spot))}`;
    handle = spot.isOn ? null : spot;
  }
  return `${path}Z`;
}

function between(a: Spot, b: Spot): Spot {
  return { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2, isOn: true };
}

const text = ({ x, y }: Spot) => `${Math.round(x * 10) / 10} ${Math.round(-y * 10) / 10}`;
