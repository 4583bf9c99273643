import { isIndependentSource, type PartId } from "../circuit";
import { Partition } from "./partition";
import type { Element, Item, Plan } from "./plan";

/** Costs of an order, against one unit for an arc's length. */
const ARC = 4;
const ARC_LENGTH = 0.7;
const CROSSING = 6;
const RAIL_OVER_DROP = 4;
const BAR_OVER_BAR = 4;

/** The most items whose every order is tried, and that are ordered better than by distance from a source at all. */
const EXHAUSTIVE = 5;
const LOCAL_SEARCH = 120;

/**
 * The items from left to right, their elements in one row: voltage sources to the left where it can be, few arcs over the rail, few
 * crossings. Groups that only the bottom rail joins stand beside each other.
 */
export function orderOf(plan: Plan, wanted: ReadonlySet<PartId>): readonly Element[] {
  const judge = new Judge(plan, wanted);
  const groups = groupsOf(plan).map((items) => searched(items, judge));
  return groups
    .map((items, i) => ({ items, i, lean: judge.lean(items) }))
    .sort((a, b) => b.lean - a.lean || a.i - b.i)
    .flatMap(({ items }) => items.flat());
}

/** Every bar of an item, those beside its blocks too. */
function verticesOf(item: Item, plan: Plan): readonly number[] {
  return item.flatMap((element) => {
    switch (element.kind) {
      case "vertex":
        return [element.vertex];
      case "drop":
        return [plan.edges[element.edge]?.from ?? 0];
      case "block":
        return element.rightSide === null ? [element.leftSide] : [element.leftSide, element.rightSide];
    }
  });
}

function groupsOf(plan: Plan): readonly (readonly Item[])[] {
  const sets = new Partition(plan.vertices.length);
  for (const { from, to } of plan.edges) if (plan.vertices[to]?.level !== 0) sets.join(from, to);
  for (const item of plan.items) {
    const vertices = verticesOf(item, plan);
    for (const vertex of vertices) sets.join(vertices[0] ?? vertex, vertex);
  }
  const groups = new Map<number, Item[]>();
  for (const item of plan.items) {
    const set = sets.find(verticesOf(item, plan)[0] ?? 0);
    const group = groups.get(set);
    if (group) group.push(item);
    else groups.set(set, [item]);
  }
  return [...groups.values()];
}

function searched(items: readonly Item[], judge: Judge): readonly Item[] {
  if (items.length < 2) return items;
  if (items.length <= EXHAUSTIVE) return best(permutations(items), judge);
  const breadthFirst = judge.byDistance(items);
  if (items.length > LOCAL_SEARCH) return breadthFirst;
  return best([improved(breadthFirst, judge), improved(items, judge)], judge);
}

function best(orders: readonly (readonly Item[])[], judge: Judge): readonly Item[] {
  let [found, least]: [readonly Item[], number] = [orders[0] ?? [], Number.POSITIVE_INFINITY];
  for (const order of orders) {
    const cost = judge.cost(order);
    if (cost < least - 1e-9) [found, least] = [order, cost];
  }
  return found;
}

function permutations<T>(items: readonly T[]): readonly (readonly T[])[] {
  if (items.length < 2) return [items];
  return items.flatMap((first, i) => permutations(items.filter((_, k) => k !== i)).map((rest) => [first, ...rest]));
}

/** Moves single items to better places until no move helps. */
function improved(start: readonly Item[], judge: Judge): readonly Item[] {
  const rounds = Math.max(1, Math.min(8, Math.floor(4000 / start.length ** 2)));
  let [order, least] = [start, judge.cost(start)];
  for (let round = 0; round < rounds; round += 1) {
    const before = least;
    for (const item of start) {
      const rest = order.filter((other) => other !== item);
      for (let place = 0; place <= rest.length; place += 1) {
        const moved = [...rest.slice(0, place), item, ...rest.slice(place)];
        const cost = judge.cost(moved);
        if (cost < least - 1e-9) [order, least] = [moved, cost];
      }
    }
    if (least === before) break;
  }
  return order;
}

class Judge {
  readonly #plan: Plan;
  /** How strongly each bar's hanging parts pull to the left. */
  readonly #pull: readonly number[];
  /** The vertices, at the bottom, that the parts of each bar hang down to. */
  readonly #place: number[];

  constructor(plan: Plan, wanted: ReadonlySet<PartId>) {
    this.#plan = plan;
    const pullOf = (edges: readonly number[]) => edges.reduce((sum, edge) => sum + pull(plan, edge, wanted), 0);
    this.#pull = plan.downs.map(pullOf);
    this.#place = plan.vertices.map(() => 0);
    this.#dropPull = new Map(plan.drops.map((edge) => [edge, pull(plan, edge, wanted)]));
  }
  readonly #dropPull: ReadonlyMap<number, number>;

  /** How strongly a group pulls to the left as a whole. */
  lean(items: readonly Item[]): number {
    return items.flat().reduce((sum, element) => sum + this.#pullOf(element), 0);
  }

  #pullOf(element: Element): number {
    switch (element.kind) {
      case "vertex":
        return this.#pull[element.vertex] ?? 0;
      case "drop":
        return this.#dropPull.get(element.edge) ?? 0;
      case "block":
        return this.#pull[element.leftSide] ?? 0;
    }
  }

  /** Items by their distance, in edges over the rail, from the one that pulls to the left most. */
  byDistance(items: readonly Item[]): readonly Item[] {
    const itemOf = new Map<number, number>();
    items.forEach((item, i) => {
      for (const vertex of verticesOf(item, this.#plan)) if (!itemOf.has(vertex)) itemOf.set(vertex, i);
    });
    const beside = items.map((): number[] => []);
    for (const { from, to } of this.#plan.edges) {
      const [a, b] = [itemOf.get(from), itemOf.get(to)];
      if (a === undefined || b === undefined || a === b) continue;
      beside[a]?.push(b);
      beside[b]?.push(a);
    }
    const starts = items.map((item, i) => ({ i, lean: this.lean([item]) }));
    starts.sort((a, b) => b.lean - a.lean || a.i - b.i);
    const seen = new Set<number>();
    for (const { i } of starts) {
      if (seen.has(i)) continue;
      seen.add(i);
      const queue = [i];
      for (let k = 0; k < queue.length; k += 1) {
        for (const other of beside[queue[k] ?? 0] ?? []) {
          if (seen.has(other)) continue;
          seen.add(other);
          queue.push(other);
        }
      }
    }
    return [...seen].flatMap((i) => (items[i] ? [items[i]] : []));
  }

  /** What an order costs; only differences between orders of the same items mean anything. */
  cost(order: readonly Item[]): number {
    const { rails, drops, cost } = this.#walk(order);
    const arcs: number[] = [];
    let total = cost;
    const { edges, ups } = this.#plan;
    for (const flat of this.#plan.flats) {
      const edge = edges[flat];
      if (!edge) continue;
      const [a, b] = [this.#place[edge.from] ?? 0, this.#place[edge.to] ?? 0];
      if (a === 0 || b === 0) continue;
      const [low, high] = a < b ? [a, b] : [b, a];
      if (rails.get(low) === high) {
        rails.delete(low); // one edge lies on the rail, the others go over it
        for (const drop of drops) if (low < drop && drop < high) total += RAIL_OVER_DROP;
        continue;
      }
      total += ARC + ARC_LENGTH * (high - low);
      for (let i = 0; i < arcs.length; i += 2) {
        const [from, to] = [arcs[i] ?? 0, arcs[i + 1] ?? 0];
        if ((from < low && low < to && to < high) || (low < from && from < high && high < to)) total += CROSSING;
      }
      for (const drop of drops) if (low < drop && drop < high) total += CROSSING;
      arcs.push(low, high);
    }
    ups.forEach((list, vertex) => {
      const at = this.#place[vertex] ?? 0;
      if (list.length === 0) return;
      for (let i = 0; i < arcs.length; i += 2) {
        if ((arcs[i] ?? 0) < at && at < (arcs[i + 1] ?? 0)) total += CROSSING * list.length;
      }
    });
    for (let i = 0; i < this.#place.length; i += 1) this.#place[i] = 0;
    return total + this.#barsOverBars(order);
  }

  /** Numbers the bars from left to right and finds which of them are neighbours on the rail. */
  #walk(order: readonly Item[]) {
    const rails = new Map<number, number>();
    const drops: number[] = [];
    let [place, before, cost] = [0, 0, 0];
    for (const element of order.flat()) {
      place += 1;
      cost += 0.4 * place * this.#pullOf(element);
      if (element.kind === "vertex") {
        this.#place[element.vertex] = place;
        if (before > 0) rails.set(before, place);
        before = place;
      } else if (element.kind === "drop") {
        drops.push(place);
      } else {
        before = 0;
        this.#place[element.leftSide] = place;
        if (element.rightSide !== null) this.#place[element.rightSide] = place + 0.5;
      }
    }
    return { rails, drops, cost };
  }

  /** Bars of different bottom nets should not lie one above the other. */
  #barsOverBars(order: readonly Item[]): number {
    const { plan } = { plan: this.#plan };
    const ranges = new Map<number, { low: number; high: number; count: number }>();
    const sequence: number[] = [];
    for (const item of order) {
      for (const vertex of verticesOf(item, plan)) {
        for (const edge of plan.downs[vertex] ?? []) sequence.push(plan.edges[edge]?.to ?? 0);
      }
    }
    sequence.forEach((bottom, at) => {
      const range = ranges.get(bottom) ?? { low: at, high: at, count: 0 };
      ranges.set(bottom, { low: range.low, high: at, count: range.count + 1 });
    });
    let strangers = 0;
    for (const { low, high, count } of ranges.values()) strangers += high - low + 1 - count;
    return BAR_OVER_BAR * strangers;
  }
}

function pull(plan: Plan, edge: number, wanted: ReadonlySet<PartId>): number {
  let sum = 0;
  for (const { part } of plan.edges[edge]?.steps ?? []) {
    if (part.kind === "voltage-source") sum += 1;
    else if (isIndependentSource(part)) sum += 0.6;
    else if (wanted.has(part.id)) sum -= 0.3;
  }
  return sum;
}
