import { unreachable } from "../quantity";
import { type Chain, chainsOf, reversedSteps, type Step } from "./chains";
import type { Block, Net, Network } from "./network";
import { Partition } from "./partition";

/**
 * What may be chosen before anything is placed: chains down to a bottom rail that hang as one stack (by name), nets
 * that have a bar of their own above the rail, and op amps whose in+ is on the rail, in− above it.
 */
export type Choice = {
  readonly stacked: ReadonlySet<string>;
  readonly raised: ReadonlySet<Net>;
  readonly lifted: ReadonlySet<string>;
};

/** Level 0 is a bottom rail, 1 the row of the rail from which parts hang, 2 a bar above it. */
export type Level = 0 | 1 | 2;
/** A horizontal bar of one net. A net may have several, joined by edges without parts. */
export type Vertex = { readonly net: Net; readonly level: Level };
/** What is drawn between two bars: parts in series, or plain wire where there are none. `from` is never below `to`. */
export type Edge = { readonly from: number; readonly to: number; readonly steps: readonly Step[] };

/** A block between two bars of the rail, with the bars of its other terminals on either side. */
export type BlockElement = {
  readonly kind: "block";
  readonly block: Block;
  /** Whether the bar to the left is at the upper of the two terminals there; the other one is `leftSide`. */
  readonly isUpper: boolean;
  readonly leftSide: number;
  /** A transformer's lower terminal to the right; an op amp has none. */
  readonly rightSide: number | null;
};
export type Element =
  | { readonly kind: "vertex"; readonly vertex: number }
  /** An edge from a raised bar straight down past the rail. */
  | { readonly kind: "drop"; readonly edge: number }
  | BlockElement;
/** The bars of an element: one, those beside a block, or the raised one that a drop comes from. */
export function elementVertices(element: Element, { edges }: Pick<Plan, "edges">): readonly number[] {
  switch (element.kind) {
    case "vertex":
      return [element.vertex];
    case "drop":
      return [edges[element.edge]?.from ?? 0];
    case "block":
      return element.rightSide === null ? [element.leftSide] : [element.leftSide, element.rightSide];
    default:
      return unreachable(element);
  }
}

/** What is ordered as one: a bar, a drop, or blocks in a row with the bars between them. */
export type Item = readonly Element[];

/** What is to be placed: bars, edges between them, and the items whose order is to be found. */
export type Plan = {
  readonly vertices: readonly Vertex[];
  readonly edges: readonly Edge[];
  readonly items: readonly Item[];
  /** Edges by what they run between: rail to bottom, raised to rail, rail to rail, raised to bottom. */
  readonly downs: readonly (readonly number[])[];
  readonly ups: readonly (readonly number[])[];
  readonly flats: readonly number[];
  readonly drops: readonly number[];
};

export function planOf(network: Network, choice: Choice): Plan {
  const draft = new Draft(network, choice);
  for (const chain of chainsOf(network, (name) => choice.stacked.has(name))) draft.addChain(chain);
  draft.addBlocks(choice.lifted);
  return draft.plan();
}

/** What a bar serves already: a block to its left, one to its right, or a terminal beside the row. */
type Claim = { readonly hasLeft: boolean; readonly hasRight: boolean; readonly isSide: boolean };
const UNCLAIMED: Claim = { hasLeft: false, hasRight: false, isSide: false };

class Draft {
  readonly #network: Network;
  readonly #vertices: Vertex[] = [];
  readonly #edges: Edge[] = [];
  readonly #base = new Map<Net, number>();
  readonly #isRaised: (net: Net) => boolean;
  readonly #claims = new Map<number, Claim>();
  /** The block to the right of a bar, and the bar to the right of that. */
  readonly #followers = new Map<number, { readonly element: BlockElement; readonly right: number }>();

  constructor(network: Network, { raised }: Choice) {
    this.#network = network;
    this.#isRaised = (net) => raised.has(net) && !network.isBottom[net];
  }

  addChain({ from, to, steps }: Chain): void {
    const a = this.#baseOf(from);
    const b = from === to ? this.#another(from) : this.#baseOf(to);
    if (this.#levelOf(a) >= this.#levelOf(b)) this.#edges.push({ from: a, to: b, steps });
    else this.#edges.push({ from: b, to: a, steps: reversedSteps(from, steps) });
  }

  /** Outputs take their bars first, so that a bar is the output of one block and the input of the next. */
  addBlocks(lifted: ReadonlySet<string>): void {
    // Each pin adds at most two bars.
    const rows = new Partition(this.#vertices.length + 8 * this.#network.blocks.length);
    const ends = this.#network.blocks.map((block) => ({ block, ...endsOf(block, lifted.has(block.part.id)) }));
    const rights = ends.map(({ right }) =>
      this.#claim(right, { hasLeft: true }, ({ hasLeft, isSide }) => !hasLeft && !isSide),
    );
    ends.forEach(({ block, left, leftSide, rightSide, isUpper }, i) => {
      const right = rights[i] as number;
      const mayLead = ({ hasRight, isSide }: Claim, vertex: number) =>
        !hasRight && !isSide && rows.find(vertex) !== rows.find(right);
      const leftVertex = this.#claim(left, { hasRight: true }, mayLead);
      rows.join(leftVertex, right);
      const side = this.#claimSide(leftSide);
      const otherSide = rightSide === null ? null : this.#claimSide(rightSide);
      const element: BlockElement = { kind: "block", block, isUpper, leftSide: side, rightSide: otherSide };
      this.#followers.set(leftVertex, { element, right });
    });
  }

  plan(): Plan {
    const downs: number[][] = this.#vertices.map(() => []);
    const ups: number[][] = this.#vertices.map(() => []);
    const [flats, drops]: [number[], number[]] = [[], []];
    this.#edges.forEach(({ from, to }, i) => {
      const [upper, lower] = [this.#levelOf(from), this.#levelOf(to)];
      if (upper === 1 && lower === 0) downs[from]?.push(i);
      else if (upper === 2 && lower === 1) ups[to]?.push(i);
      else if (upper === 2 && lower === 0) drops.push(i);
      else flats.push(i);
    });
    const items = [...this.#rows(), ...drops.map((edge): Item => [{ kind: "drop", edge }])];
    return { vertices: this.#vertices, edges: this.#edges, items, downs, ups, flats, drops };
  }

  /** The bars of the rail and the blocks between them, as rows that stay together. */
  #rows(): readonly Item[] {
    const items: Item[] = [];
    this.#vertices.forEach(({ level }, vertex) => {
      const { hasLeft, isSide } = this.#claimOf(vertex);
      if (level !== 1 || hasLeft || isSide) return;
      const row: Element[] = [{ kind: "vertex", vertex }];
      for (let next = this.#followers.get(vertex); next; next = this.#followers.get(next.right)) {
        row.push(next.element, { kind: "vertex", vertex: next.right });
      }
      items.push(row);
    });
    return items;
  }

  #levelOf(vertex: number): Level {
    return this.#vertices[vertex]?.level ?? 1;
  }

  #claimOf(vertex: number): Claim {
    return this.#claims.get(vertex) ?? UNCLAIMED;
  }

  #baseOf(net: Net): number {
    const known = this.#base.get(net);
    if (known !== undefined) return known;
    const level = this.#network.isBottom[net] ? 0 : this.#isRaised(net) ? 2 : 1;
    const vertex = this.#add({ net, level });
    this.#base.set(net, vertex);
    return vertex;
  }

  #add(vertex: Vertex): number {
    this.#vertices.push(vertex);
    return this.#vertices.length - 1;
  }

  /** One more bar on the rail for a net, joined to its first one by plain wire. */
  #another(net: Net): number {
    const base = this.#baseOf(net);
    const vertex = this.#add({ net, level: 1 });
    const [from, to] = this.#levelOf(base) === 2 ? [base, vertex] : [vertex, base];
    this.#edges.push({ from, to, steps: [] });
    return vertex;
  }

  /** The first bar of a net where it is on the rail and free for the purpose, else one more. */
  #claim(net: Net, purpose: Partial<Claim>, isFree: (claim: Claim, vertex: number) => boolean): number {
    const base = this.#baseOf(net);
    const isFit = this.#levelOf(base) === 1 && isFree(this.#claimOf(base), base);
    const vertex = isFit ? base : this.#another(net);
    this.#claims.set(vertex, { ...this.#claimOf(vertex), ...purpose });
    return vertex;
  }

  #claimSide(net: Net): number {
    return this.#claim(net, { isSide: true }, ({ hasLeft, hasRight, isSide }) => !hasLeft && !hasRight && !isSide);
  }
}

function endsOf({ part, pins }: Block, isLifted: boolean) {
  const [first, second, third, fourth] = pins as readonly [Net, Net, Net, Net];
  if (part.kind === "ideal-transformer") {
    return { left: first, leftSide: second, right: third, rightSide: fourth, isUpper: true };
  }
  const [left, leftSide] = isLifted ? [first, second] : [second, first];
  return { left, leftSide, right: third, rightSide: null, isUpper: !isLifted };
}
