import { type Element, elementVertices, type Item, type Plan } from "./plan";

/** Costs of an order, against one place nearer to the left for a voltage source. */
const PULL = 0.4;
const ARC = 4;
const ARC_LENGTH = 0.7;
const CROSSING = 6;
const RAIL_OVER_DROP = 4;
const BAR_OVER_BAR = 4;

/** Where a bar is: in which item, and how many places from its beginning. */
type Place = { readonly item: number; readonly at: number };
/** A flat edge of the group; `isRail` where its ends may be neighbours on the rail. */
type Flat = { readonly from: Place; readonly to: Place; readonly isEnding: readonly [boolean, boolean] };

/** What an order of one group's items costs. Items go by their numbers in the group. */
export class Judge {
  /** Steps of arithmetic, about, that one cost takes. */
  readonly effort: number;
  readonly #items: readonly Item[];
  readonly #lengths: readonly number[];
  readonly #pulls: readonly { readonly sum: number; readonly moment: number }[];
  readonly #flats: readonly Flat[];
  readonly #isDrop: readonly boolean[];
  /** Bars that edges from raised bars stand on, and how many. */
  readonly #standing: readonly { readonly place: Place; readonly count: number }[];
  /** The bottom bars that each item's parts hang down to, from left to right; none where all is one. */
  readonly #bottoms: readonly (readonly number[])[];
  readonly #beside: readonly (readonly number[])[];
  // Kept from one cost to the next to save making them.
  readonly #starts: number[];
  readonly #next: number[];
  readonly #arcs: number[] = [];

  constructor(plan: Plan, items: readonly Item[], pullOf: (element: Element) => number) {
    this.#items = items;
    this.#lengths = items.map((item) => item.length);
    this.#pulls = items.map((item) => ({
      sum: item.reduce((sum, element) => sum + pullOf(element), 0),
      moment: item.reduce((sum, element, at) => sum + at * pullOf(element), 0),
    }));
    this.#isDrop = items.map(([first]) => first?.kind === "drop");
    const places = placesOf(plan, items);
    this.#flats = plan.flats.flatMap((edge) => flatOf(plan, edge, items, places) ?? []);
    this.#standing = [...places].flatMap(([vertex, place]) => {
      const count = plan.ups[vertex]?.length ?? 0;
      return count > 0 ? [{ place, count }] : [];
    });
    this.#bottoms = bottomsOf(plan, items);
    this.#beside = neighbours(plan, items, places);
    this.#starts = items.map(() => 0);
    this.#next = items.map(() => -1);
    this.effort = items.length + this.#flats.length * (2 + this.#flats.length / 8) + this.#bottoms.flat().length * 4;
  }

  cost(order: readonly number[]): number {
    let total = this.#place(order);
    const arcs = this.#arcs;
    arcs.length = 0;
    for (const { from, to, isEnding } of this.#flats) {
      const [a, b] = [this.#at(from), this.#at(to)];
      const isAhead = a < b;
      const [first, second] = isAhead ? [from.item, to.item] : [to.item, from.item];
      const [low, high] = isAhead ? [a, b] : [b, a];
      if (this.#next[first] === second && isEnding[isAhead ? 0 : 1]) {
        this.#next[first] = -1; // one edge lies on the rail, the others go over it
        total += RAIL_OVER_DROP * this.#dropsBetween(order, low, high);
        continue;
      }
      total += ARC + ARC_LENGTH * (high - low) + CROSSING * this.#dropsBetween(order, low, high);
      for (let i = 0; i < arcs.length; i += 2) {
        const [left, right] = [arcs[i] as number, arcs[i + 1] as number];
        if ((left < low && low < right && right < high) || (low < left && left < high && high < right)) {
          total += CROSSING;
        }
      }
      arcs.push(low, high);
    }
    for (const { place, count } of this.#standing) {
      const at = this.#at(place);
      for (let i = 0; i < arcs.length; i += 2) {
        if ((arcs[i] as number) < at && at < (arcs[i + 1] as number)) total += CROSSING * count;
      }
    }
    return total + BAR_OVER_BAR * this.#strangers(order);
  }

  /** Items by their distance, in edges over the rail, from the one that pulls to the left most, or from an end. */
  byDistance(): readonly number[] {
    const pull = (item: number) => this.#pulls[item]?.sum ?? 0;
    const byPull = this.#items.map((_, i) => i).sort((a, b) => pull(b) - pull(a) || a - b);
    if (pull(byPull[0] ?? 0) > 0) return this.#reached(byPull);
    return this.#reached([this.#reached(byPull).at(-1) ?? 0, ...byPull]);
  }

  #reached(beginnings: readonly number[]): readonly number[] {
    const seen = new Set<number>();
    for (const begin of beginnings) {
      // A set goes on to what is added while it is gone through, which makes it a queue.
      for (const item of seen.has(begin) ? [] : seen.add(begin)) {
        for (const other of this.#beside[item] ?? []) seen.add(other);
      }
    }
    return [...seen];
  }

  /** Gives every item its place and the next bar on the rail; what the pull to the left costs. */
  #place(order: readonly number[]): number {
    let [start, before, cost] = [0, -1, 0];
    for (const item of order) {
      this.#starts[item] = start;
      this.#next[item] = -1;
      const { sum, moment } = this.#pulls[item] as { readonly sum: number; readonly moment: number };
      cost += PULL * (sum * start + moment);
      start += this.#lengths[item] as number;
      if (this.#isDrop[item]) continue;
      if (before >= 0) this.#next[before] = item;
      before = item;
    }
    return cost;
  }

  #at({ item, at }: Place): number {
    return (this.#starts[item] as number) + at;
  }

  #dropsBetween(order: readonly number[], low: number, high: number): number {
    if (!this.#isDrop.includes(true)) return 0;
    let count = 0;
    for (const item of order) {
      const at = this.#starts[item] as number;
      if (this.#isDrop[item] && low < at && at < high) count += 1;
    }
    return count;
  }

  /** How many parts hang past a bottom bar that is not theirs. */
  #strangers(order: readonly number[]): number {
    if (this.#bottoms.length === 0) return 0;
    const ranges = new Map<number, { readonly low: number; readonly high: number; readonly count: number }>();
    let at = 0;
    for (const item of order) {
      for (const bottom of this.#bottoms[item] ?? []) {
        const { low, count } = ranges.get(bottom) ?? { low: at, count: 0 };
        ranges.set(bottom, { low, high: at, count: count + 1 });
        at += 1;
      }
    }
    let strangers = 0;
    for (const { low, high, count } of ranges.values()) strangers += high - low + 1 - count;
    return strangers;
  }
}

/** The places of all bars, those beside blocks half a place away from theirs. */
function placesOf(plan: Plan, items: readonly Item[]): ReadonlyMap<number, Place> {
  const places = new Map<number, Place>();
  items.forEach((item, i) => {
    item.forEach((element, at) => {
      if (element.kind === "drop") return;
      elementVertices(element, plan).forEach((vertex, k) => {
        places.set(vertex, { item: i, at: at + k / 2 });
      });
    });
  });
  return places;
}

function flatOf(plan: Plan, index: number, items: readonly Item[], places: ReadonlyMap<number, Place>): Flat | null {
  const edge = plan.edges[index];
  const [from, to] = [places.get(edge?.from ?? -1), places.get(edge?.to ?? -1)];
  if (!edge || !from || !to) return null;
  const isHead = (vertex: number, { item }: Place) => isVertex(items[item]?.[0], vertex);
  const isTail = (vertex: number, { item }: Place) => isVertex(items[item]?.at(-1), vertex);
  const isEnding = [
    isTail(edge.from, from) && isHead(edge.to, to),
    isTail(edge.to, to) && isHead(edge.from, from),
  ] as const;
  return { from, to, isEnding };
}

const isVertex = (element: Element | undefined, vertex: number) =>
  element?.kind === "vertex" && element.vertex === vertex;

function bottomsOf(plan: Plan, items: readonly Item[]): readonly (readonly number[])[] {
  const hanging = (element: Element): readonly number[] =>
    element.kind === "drop"
      ? [element.edge]
      : elementVertices(element, plan).flatMap((vertex) => plan.downs[vertex] ?? []);
  const bottoms = items.map((item) => item.flatMap(hanging).map((edge) => plan.edges[edge]?.to ?? -1));
  return new Set(bottoms.flat()).size > 1 ? bottoms : [];
}

/** The items that edges join to each item. */
function neighbours(plan: Plan, items: readonly Item[], places: ReadonlyMap<number, Place>) {
  const beside = items.map((): number[] => []);
  const join = (a: number, b: number) => {
    if (a === b) return;
    beside[a]?.push(b);
    beside[b]?.push(a);
  };
  const standing = new Map<number, number>();
  for (const { from, to } of plan.edges) {
    const lower = places.get(to)?.item;
    const upper = places.get(from)?.item ?? standing.get(from);
    if (lower === undefined) continue;
    if (upper !== undefined) join(upper, lower);
    else standing.set(from, lower);
  }
  return beside;
}
