import type { Idle } from "../../shared/replay";

/** A stretch of the ruler: times in ms since 1970, `start` and `end` as shares of the ruler's length. */
export type Piece = {
  readonly from: number;
  readonly to: number;
  readonly start: number;
  readonly end: number;
  /** Whether nothing happened in it, so that it takes as little room as can be seen. */
  readonly isFold: boolean;
};

/** A session's time laid out along a line, with idle stretches folded away. Pieces follow one another without gaps. */
export type Ruler = { readonly pieces: readonly Piece[]; readonly from: number; readonly to: number };

/** Room that one fold takes, and all of them at most, as shares of the ruler. */
const FOLD = 0.014;
const FOLDS = 0.25;

/** Lays out the time between `from` and `to`. `folds` are in order and apart; those that reach beyond are cut. */
export function rulerOf(from: number, to: number, folds: readonly Idle[]): Ruler {
  const cut = folds
    .map((fold) => ({ from: Math.max(fold.from, from), to: Math.min(fold.to, to) }))
    .filter((fold) => fold.to > fold.from);
  const folded = cut.reduce((sum, fold) => sum + fold.to - fold.from, 0);
  const open = to - from - folded;
  const room = open <= 0 ? 1 : Math.min(FOLDS, cut.length * FOLD);
  const ends: { readonly to: number; readonly isFold: boolean }[] = [];
  for (const fold of cut) ends.push({ to: fold.from, isFold: false }, { to: fold.to, isFold: true });
  ends.push({ to, isFold: false });
  const pieces: Piece[] = [];
  let [at, share] = [from, 0];
  for (const end of ends) {
    if (end.to <= at) continue;
    const width = end.isFold ? room / cut.length : ((end.to - at) / open) * (1 - (cut.length > 0 ? room : 0));
    pieces.push({ from: at, to: end.to, start: share, end: share + width, isFold: end.isFold });
    [at, share] = [end.to, share + width];
  }
  return { pieces, from, to };
}

/** Where on the ruler a time lies, from 0 to 1. */
export function shareAt({ pieces }: Ruler, time: number): number {
  const piece = pieces.find(({ to }) => time <= to) ?? pieces.at(-1);
  if (!piece) return 0;
  const part = Math.min(Math.max((time - piece.from) / (piece.to - piece.from), 0), 1);
  return piece.start + part * (piece.end - piece.start);
}

/** The time at a place of the ruler, from 0 to 1. */
export function timeAt({ pieces, from }: Ruler, share: number): number {
  const piece = pieces.find(({ end }) => share <= end) ?? pieces.at(-1);
  if (!piece) return from;
  const part = Math.min(Math.max((share - piece.start) / (piece.end - piece.start), 0), 1);
  return piece.from + part * (piece.to - piece.from);
}

/** Distances of marks that read well, in ms: seconds, minutes and hours. */
const STEPS = [1, 2, 5, 10, 15, 30, 60, 120, 300, 600, 900, 1800, 3600, 7200, 14_400, 43_200, 86_400].map(
  (seconds) => seconds * 1000,
);

export type Mark = { readonly share: number; readonly elapsed: number };

/** Marks at round times since the beginning, at least `gap` (a share of the ruler) apart; none in folds, nor at the very end. */
export function marksOf(ruler: Ruler, gap: number): readonly Mark[] {
  const open = ruler.pieces.filter(({ isFold }) => !isFold);
  const shown = open.reduce((sum, { start, end }) => sum + end - start, 0);
  const time = open.reduce((sum, { from, to }) => sum + to - from, 0);
  if (time === 0 || gap <= 0) return [];
  const least = (gap / shown) * time;
  const step = STEPS.find((each) => each >= least) ?? Math.ceil(least / 86_400_000) * 86_400_000;
  const marks: Mark[] = [];
  for (const { from, to } of open) {
    const first = Math.ceil((from - ruler.from) / step) * step;
    for (let elapsed = first; ruler.from + elapsed <= to; elapsed += step) {
      const share = shareAt(ruler, ruler.from + elapsed);
      if (share - (marks.at(-1)?.share ?? -1) >= gap && share <= 1 - gap / 2) marks.push({ share, elapsed });
    }
  }
  return marks;
}

/** Those of some things along the ruler, in its order, that lie at least `gap` (a share of it) behind the last one that is kept. */
export function apart<T extends { readonly share: number }>(placed: readonly T[], gap: number): readonly T[] {
  let last = Number.NEGATIVE_INFINITY;
  return placed.filter(({ share }) => {
    if (share - last < gap) return false;
    last = share;
    return true;
  });
}
