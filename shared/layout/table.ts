import { isIndependentSource } from "../circuit";
import { type Marks, placeOf } from "./marks";
import type { BlockElement, Element, Plan } from "./plan";

/**
 * A vertical line of the drawing with the edges that run along it: below the rail, above it, or past it. Between each
 * column and the next lies a zone, with the number of the column before it.
 */
export type Column = { readonly down: number | null; readonly up: number | null; readonly drop: number | null };

/** Where a bar lies: its columns from the first to the last, and those from which it may rise to arcs on either side. */
export type Bar = {
  readonly first: number;
  readonly last: number;
  readonly riseLeft: number;
  readonly riseRight: number;
  /** Grid steps below the rail's own row. */
  readonly offset: number;
  /** Grid steps below the rail's own row from which on nothing but what hangs here lies in its columns. */
  readonly clear: number;
};

/** A flat edge along the rail, from one bar to the next. */
export type Rail = { readonly edge: number; readonly left: number; readonly right: number };
/** A flat edge over the rail: up from one bar, along a track, down to the other. */
export type Arc = Rail;
export type PlacedBlock = { readonly element: BlockElement; readonly pin: number; readonly offset: number };

/** All parts in columns and zones, before anything has a place on the grid. Bars and arcs name vertices of the plan. */
export type Table = {
  readonly columns: readonly Column[];
  readonly bars: ReadonlyMap<number, Bar>;
  readonly rails: readonly Rail[];
  readonly arcs: readonly Arc[];
  readonly blocks: readonly PlacedBlock[];
};

export function tableOf(plan: Plan, elements: readonly Element[], marks: Marks): Table {
  const { rails, arcs } = dividedFlats(plan, elements);
  const builder = new TableBuilder(plan, arcs, marks);
  const { columns, bars, blocks } = builder.build(elements, new Set(rails.map(({ right }) => right)));
  return { columns, bars, rails, arcs, blocks };
}

/** Which flat edges lie on the rail: of each two bars that are neighbours there, the edge of most parts. */
function dividedFlats({ edges, flats }: Plan, elements: readonly Element[]) {
  const place = new Map<number, number>();
  const next = new Map<number, number>();
  let before: number | null = null;
  elements.forEach((element, i) => {
    if (element.kind === "vertex") {
      place.set(element.vertex, i);
      if (before !== null) next.set(before, element.vertex);
      before = element.vertex;
    } else if (element.kind === "block") {
      before = null;
      place.set(element.leftSide, i);
      if (element.rightSide !== null) place.set(element.rightSide, i + 0.5);
    }
  });
  const sided = flats.map((edge) => {
    const { from, to } = edges[edge] ?? { from: 0, to: 0 };
    const isAhead = (place.get(from) ?? 0) <= (place.get(to) ?? 0);
    return isAhead ? { edge, left: from, right: to } : { edge, left: to, right: from };
  });
  const onRail = new Map<number, Arc>();
  for (const flat of sided) {
    const rival = onRail.get(flat.left);
    const length = (arc: Arc) => edges[arc.edge]?.steps.length ?? 0;
    if (next.get(flat.left) === flat.right && (!rival || length(flat) > length(rival))) onRail.set(flat.left, flat);
  }
  const rails = [...onRail.values()];
  return { rails, arcs: sided.filter((flat) => !rails.includes(flat)) };
}

/** The terminals of blocks on either side of a bar. */
type Beside = {
  /** The column of a terminal to the left, and which of its ways up and down are free. */
  readonly left: { readonly column: number; readonly free: "both" | "up" | "down" } | null;
  /** An upper terminal to the right leaves the way up free, a lower one the way down. */
  readonly right: "upper" | "lower" | null;
};

class TableBuilder {
  readonly #plan: Plan;
  readonly #marks: Marks;
  readonly #columns: Column[] = [];
  readonly #bars = new Map<number, Bar>();
  readonly #blocks: PlacedBlock[] = [];
  readonly #rising: ReadonlySet<number>;

  constructor(plan: Plan, arcs: readonly Arc[], marks: Marks) {
    this.#plan = plan;
    this.#marks = marks;
    this.#rising = new Set(arcs.flatMap(({ left, right }) => [left, right]));
  }

  /** `isReached` tells the bars that go on from the bar before them, in its row. */
  build(elements: readonly Element[], isReached: ReadonlySet<number>) {
    let offset = 0;
    elements.forEach((element, i) => {
      if (element.kind === "drop") this.#column({ drop: element.edge });
      if (element.kind !== "vertex") return;
      const { vertex } = element;
      const [before, next] = [elements[i - 1], elements[i + 1]];
      if (before?.kind === "block") offset += outputStep(before);
      else if (!isReached.has(vertex)) offset = 0;
      const left = before?.kind === "block" ? this.#terminalLeft(before) : null;
      if (next?.kind === "block") {
        this.#bar(vertex, offset, offset, { left, right: next.isUpper ? "upper" : "lower" });
        this.#block(next, vertex, offset);
      } else {
        const goesOn = next?.kind === "vertex" && isReached.has(next.vertex);
        this.#bar(vertex, offset, offset, { left, right: null }, isReached.has(vertex) && !goesOn);
      }
    });
    return { columns: this.#columns, bars: this.#bars, blocks: this.#blocks };
  }

  /** The terminal to the right of the block placed last, as the next bar finds it. */
  #terminalLeft({ rightSide }: BlockElement): NonNullable<Beside["left"]> {
    return { column: (this.#blocks.at(-1)?.pin ?? 0) + 1, free: rightSide === null ? "both" : "up" };
  }

  /** The bars beside a block, its two columns of terminals and itself, to the right of a bar. */
  #block(element: BlockElement, leftBar: number, offset: number): void {
    const { leftSide, rightSide, isUpper } = element;
    const sideOffset = isUpper ? offset + 2 : offset - 2;
    this.#bar(leftSide, sideOffset, isUpper ? sideOffset + 1 : offset + 1, {
      left: null,
      right: isUpper ? "lower" : "upper",
    });
    const upper = isUpper ? leftBar : leftSide;
    // A bar that rises nowhere yet does so just before its terminal.
    if (this.#rising.has(upper) && (this.#bars.get(upper)?.first ?? -1) < 0) this.#reach(upper, this.#column({}));
    const pin = this.#column({});
    for (const vertex of [leftBar, leftSide]) this.#reach(vertex, pin);
    const lower = isUpper ? leftSide : leftBar;
    this.#fill(pin, { down: this.#hangingAt(lower) });
    const centre = isUpper ? offset + 1 : offset - 1;
    this.#blocks.push({ element, pin, offset: centre });
    const right = this.#column({});
    if (rightSide === null) return;
    this.#bar(rightSide, offset + 2, offset + 3, { left: { column: right, free: "down" }, right: null });
  }

  /** Makes the columns of a bar: one for each part that hangs from it or stands on it, shared by the two. */
  #bar(vertex: number, offset: number, clear: number, { left, right }: Beside, isEnd = false): void {
    const hanging = [...this.#downs(vertex, isEnd)];
    const standing = this.#plan.ups[vertex] ?? [];
    if (right === "lower") hanging.pop(); // it hangs from the terminal itself
    if (left?.free === "down") this.#fill(left.column, { down: hanging.shift() ?? null });
    const isFree = left === null && right === null;
    const mustRise = this.#rising.has(vertex) && (right === "lower" || left?.free === "down");
    const given = left?.free === "both" ? [left.column] : [];
    const count = Math.max(hanging.length, standing.length, given.length, isFree || mustRise ? 1 : 0);
    const columns = Array.from({ length: count }, (_, i) => given[i] ?? this.#column({}));
    columns.forEach((column, i) => {
      this.#fill(column, { down: hanging[i] ?? null, up: standing[i] ?? null });
    });
    const first = left?.column ?? columns[0] ?? -1;
    const last = columns.at(-1) ?? first;
    const riseLeft = left?.free === "up" ? left.column : (columns[0] ?? -1);
    this.#bars.set(vertex, { first, last, riseLeft, riseRight: columns.at(-1) ?? riseLeft, offset, clear });
  }

  /** Lets a bar go on to a terminal's column. */
  #reach(vertex: number, column: number): void {
    const bar = this.#bars.get(vertex);
    if (!bar) return;
    const first = bar.first < 0 ? column : bar.first;
    const [riseLeft, riseRight] = bar.first < 0 ? [column, column] : [bar.riseLeft, bar.riseRight];
    this.#bars.set(vertex, { ...bar, first, last: column, riseLeft, riseRight });
  }

  /** The part that hangs from a lower terminal itself: the last one of its bar. */
  #hangingAt(vertex: number): number | null {
    return this.#downs(vertex, false).at(-1) ?? null;
  }

  /** What hangs from a bar: as in the drawing to be like, else sources first, but last where the rail ends. */
  #downs(vertex: number, isEnd: boolean): readonly number[] {
    const partsOf = (edge: number) => this.#plan.edges[edge]?.steps.map(({ part }) => part) ?? [];
    const downs = this.#plan.downs[vertex] ?? [];
    const placed = downs.map((edge) => {
      const parts = partsOf(edge);
      const ids = parts.map(({ id }) => id);
      return { edge, place: placeOf(ids, this.#marks) ?? (parts.some(isIndependentSource) === isEnd ? 1 : 0) };
    });
    return placed.sort((a, b) => a.place - b.place).map(({ edge }) => edge);
  }

  #column(fill: Partial<Column>): number {
    this.#columns.push({ down: null, up: null, drop: null, ...fill });
    return this.#columns.length - 1;
  }

  #fill(column: number, fill: Partial<Column>): void {
    this.#columns[column] = { down: null, up: null, drop: null, ...this.#columns[column], ...fill };
  }
}

/** How much lower the row goes on behind a block: an op amp's output is in the middle between its inputs. */
function outputStep({ block, isUpper }: BlockElement): number {
  if (block.part.kind === "ideal-transformer") return 0;
  return isUpper ? 1 : -1;
}
