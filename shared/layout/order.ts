import { isIndependentSource, type PartId } from "../circuit";
import { Judge } from "./judge";
import { type Marks, placeOf } from "./marks";
import { Partition } from "./partition";
import { type Element, elementVertices, type Item, type Plan } from "./plan";

/** The most items whose every order is tried. */
const EXHAUSTIVE = 5;
/** How often each item may move. */
const ROUNDS = 6;

/**
 * The items from left to right, their elements in one row: sources to the left where it can be, few arcs over the rail,
 * few crossings. Groups that only bottom rails join stand beside each other. `effort` is, about, how many steps of
 * arithmetic a group may take.
 */
export function orderOf(plan: Plan, marks: Marks, effort: number): readonly Element[] {
  const pullOf = pulls(plan, marks);
  return groupsOf(plan)
    .map((items, i) => ({ items: searched(plan, items, pullOf, effort), i, pull: total(items.flat().map(pullOf)) }))
    .sort((a, b) => b.pull - a.pull || a.i - b.i)
    .flatMap(({ items }) => items.flat());
}

const total = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0);

/** Items that edges above the bottom rails join, in the order of the plan. */
function groupsOf(plan: Plan): readonly (readonly Item[])[] {
  const sets = new Partition(plan.vertices.length);
  for (const { from, to } of plan.edges) if (plan.vertices[to]?.level !== 0) sets.join(from, to);
  const groups = new Map<number, Item[]>();
  const firstOf = (item: Item) => item.flatMap((element) => elementVertices(element, plan))[0] ?? 0;
  for (const item of plan.items) {
    for (const element of item) for (const vertex of elementVertices(element, plan)) sets.join(firstOf(item), vertex);
  }
  for (const item of plan.items) {
    const set = sets.find(firstOf(item));
    const group = groups.get(set);
    if (group) group.push(item);
    else groups.set(set, [item]);
  }
  return [...groups.values()];
}

type PullOf = (element: Element) => number;

/**
 * How strongly what hangs from an element pulls to the left: as far as it stood to the left in the drawing to be like,
 * else as far as it is a source; of sources alike, the one named first pulls a little more.
 */
function pulls(plan: Plan, marks: Marks): PullOf {
  const sources = plan.edges.flatMap(({ steps }) => steps.map(({ part }) => part).filter(isIndependentSource));
  const names = sources.map(({ id }) => id).sort();
  const ranks = new Map<PartId, number>(names.map((name, i) => [name, i / names.length]));
  const pullOfEdge = (edge: number): number => {
    const parts = plan.edges[edge]?.steps.map(({ part }) => part) ?? [];
    const place = placeOf(
      parts.map(({ id }) => id),
      marks,
    );
    if (place !== null) return -place;
    return total(
      parts.map(({ kind, id }) => {
        if (kind === "voltage-source") return 1 - 0.5 * (ranks.get(id) ?? 0);
        if (kind === "current-source") return 0.25 - 0.1 * (ranks.get(id) ?? 0);
        return marks.counts.has(id) ? -0.3 : 0;
      }),
    );
  };
  return (element) =>
    element.kind === "drop"
      ? pullOfEdge(element.edge)
      : total(elementVertices(element, plan).flatMap((vertex) => (plan.downs[vertex] ?? []).map(pullOfEdge)));
}

function searched(plan: Plan, items: readonly Item[], pullOf: PullOf, effort: number): readonly Item[] {
  if (items.length < 2) return items;
  const judge = new Judge(plan, items, pullOf);
  return bestOrder(items.length, judge, effort).flatMap((i) => (items[i] ? [items[i]] : []));
}

type Order = readonly number[];

function bestOrder(count: number, judge: Judge, effort: number): Order {
  const given = Array.from({ length: count }, (_, i) => i);
  if (count <= EXHAUSTIVE) return cheapest(permutations(given), judge);
  const outward = judge.byDistance();
  const breadthFirst = cheapest([outward, [...outward].reverse()], judge);
  // How far an item may move, so that all rounds from both beginnings together keep within the effort.
  const reach = Math.floor(effort / (2 * ROUNDS * count * judge.effort * 2));
  if (reach < 2) return breadthFirst;
  return cheapest([improved(breadthFirst, judge, reach), improved(given, judge, reach)], judge);
}

function cheapest(orders: readonly Order[], judge: Judge): Order {
  let [found, least]: [Order, number] = [[], Number.POSITIVE_INFINITY];
  for (const order of orders) {
    const cost = judge.cost(order);
    if (cost < least - 1e-9) [found, least] = [order, cost];
  }
  return found;
}

function permutations(items: Order): readonly Order[] {
  if (items.length < 2) return [items];
  return items.flatMap((first, i) => permutations(items.filter((_, k) => k !== i)).map((rest) => [first, ...rest]));
}

/** Moves single items to better places, at most `reach` away, until no move helps. */
function improved(start: Order, judge: Judge, reach: number): Order {
  let [order, least] = [start, judge.cost(start)];
  for (let round = 0; round < ROUNDS; round += 1) {
    const before = least;
    for (const item of start) {
      const home = order.indexOf(item);
      const rest = order.filter((other) => other !== item);
      for (let place = Math.max(0, home - reach); place <= Math.min(rest.length, home + reach); place += 1) {
        const moved = [...rest.slice(0, place), item, ...rest.slice(place)];
        const cost = judge.cost(moved);
        if (cost < least - 1e-9) [order, least] = [moved, cost];
      }
    }
    if (least === before) break;
  }
  return order;
}
