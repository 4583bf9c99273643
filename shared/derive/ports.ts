import type { BranchIndex, NodeIndex } from "../solve/network";
import { type Acting, branchOf, endsOf } from "./acting";
import { combinedName, type Name } from "./names";
import { impedanceOf } from "./quantities";

/**
 * A two-terminal piece of an acting circuit, seen from `from` to `to`: one branch, or others in series or in parallel.
 * `parts` lists the branches in it. Voltages and currents count along its orientation.
 */
export type Port = {
  readonly id: number;
  readonly from: NodeIndex;
  readonly to: NodeIndex;
  readonly make:
    | { readonly kind: "branch"; readonly branch: BranchIndex; readonly sign: 1 | -1 }
    | { readonly kind: "series" | "parallel"; readonly of: readonly Port[] };
  readonly parts: readonly BranchIndex[];
  /** The nodes between which these branches stand: other than its ends for an image. */
  readonly own: { readonly from: NodeIndex; readonly to: NodeIndex };
  readonly name: Name;
  /**
   * Whether a source transformation has made it, so that its "current", or its "voltage", is no quantity of the circuit
   * itself; a "row" starts with such a voltage, so its own is none either.
   */
  readonly image: "none" | "current" | "voltage" | "row";
  /** What it is an image of. */
  readonly original: Port | null;
};

/** Makes ports with numbers of their own. */
export class PortMaker<T> {
  private count = 0;
  private combined = 0;
  private readonly acting: Acting<T>;

  constructor(acting: Acting<T>) {
    this.acting = acting;
  }

  branch(i: BranchIndex): Port {
    const { plus, minus } = endsOf(this.acting, i);
    const expr = impedanceOf(this.acting, i);
    const name = expr.kind === "quantity" && expr.name !== null ? expr.name : { text: "R", latex: "R" };
    const make = { kind: "branch", branch: i, sign: 1 } as const;
    return {
      id: this.count++,
      from: plus,
      to: minus,
      make,
      parts: [i],
      name,
      image: "none",
      own: { from: plus, to: minus },
      original: null,
    };
  }

  /** Pieces in a row from one node to another; those that are rows themselves are opened. */
  series(of: readonly Port[], from: NodeIndex, to: NodeIndex): Port {
    const chain = of.flatMap((port) => (port.make.kind === "series" && port.image === "none" ? port.make.of : [port]));
    return this.combine("series", chain, from, to);
  }

  parallel(of: readonly Port[]): Port {
    const [first] = of as readonly [Port];
    const open = of
      .map((port) => oriented(port, first.from, first.to))
      .flatMap((port) => (port.make.kind === "parallel" && port.image === "none" ? port.make.of : [port]));
    return this.combine("parallel", open, first.from, first.to);
  }

  /** The same piece as a source transformation sees it. */
  image(port: Port, image: "current" | "voltage", from: NodeIndex, to: NodeIndex): Port {
    return { ...port, id: this.count++, image, from, to, original: port };
  }

  /** A row that begins with the image of a voltage source's resistance. */
  row(image: Port, inner: Port): Port {
    const of = inner.make.kind === "series" ? [image, ...inner.make.of] : [image, inner];
    return { ...this.combine("series", of, inner.from, inner.to), image: "row" };
  }

  /** Pieces on both sides of another, taken as one resistance. */
  gathered(of: readonly Port[]): Port {
    const [first] = of as readonly [Port];
    return of.length === 1 ? first : { ...this.combine("series", of, first.from, first.to), image: "row" };
  }

  private combine(kind: "series" | "parallel", of: readonly Port[], from: NodeIndex, to: NodeIndex): Port {
    const parts = of.flatMap((port) => port.parts);
    const letter = this.acting.set.stimulus.frequency === null ? "R" : "Z";
    const ids = parts.map((i) => branchOf(this.acting, i).part);
    const name = combinedName(ids, letter, ++this.combined);
    return {
      id: this.count++,
      from,
      to,
      make: { kind, of },
      parts,
      name,
      image: "none",
      own: { from, to },
      original: null,
    };
  }
}

/** A piece turned so that it runs from one node to the other. */
export function oriented(port: Port, from: NodeIndex, to: NodeIndex): Port {
  if (port.image !== "none") return port;
  const { make } = port;
  if (make.kind === "branch") {
    const isTurned = port.from !== from;
    return isTurned ? { ...port, from, to, make: { ...make, sign: -make.sign as 1 | -1 } } : { ...port, from, to };
  }
  if (make.kind === "parallel") {
    return { ...port, from, to, make: { kind: make.kind, of: make.of.map((each) => oriented(each, from, to)) } };
  }
  const chain = port.from === from ? make.of : [...make.of].reverse();
  let at = from;
  const of = chain.map((each) => {
    const next = each.from === at ? each.to : each.from;
    const turned = oriented(each, at, next);
    at = next;
    return turned;
  });
  return { ...port, from, to, make: { kind: make.kind, of } };
}

/** Combines in series and in parallel until nothing more can be; nodes of `kept` stay. */
export function reduced<T>(
  maker: PortMaker<T>,
  branches: readonly BranchIndex[],
  kept: ReadonlySet<NodeIndex>,
): readonly Port[] {
  let ports = branches.map((i) => maker.branch(i));
  for (let before = -1; before !== ports.length; ) {
    before = ports.length;
    ports = paralleled(maker, ports);
    ports = serialised(maker, ports, kept);
  }
  return ports;
}

function paralleled<T>(maker: PortMaker<T>, ports: readonly Port[]): Port[] {
  const byEnds = new Map<string, Port[]>();
  for (const port of ports) {
    const key = [Math.min(port.from, port.to), Math.max(port.from, port.to)].join();
    byEnds.set(key, [...(byEnds.get(key) ?? []), port]);
  }
  return [...byEnds.values()].map((same) => (same.length === 1 ? (same[0] as Port) : maker.parallel(same)));
}

function serialised<T>(maker: PortMaker<T>, ports: readonly Port[], kept: ReadonlySet<NodeIndex>): Port[] {
  let rest = [...ports];
  for (const node of new Set(ports.flatMap(({ from, to }) => [from, to]))) {
    if (kept.has(node)) continue;
    const here = rest.filter(({ from, to }) => from === node || to === node);
    const [a, b] = here;
    if (a === undefined || b === undefined || here.length !== 2) continue;
    const start = a.from === node ? a.to : a.from;
    const end = b.from === node ? b.to : b.from;
    // Both back to one node: a loop without a source, which has been left out already.
    if (start === end) continue;
    const row = maker.series([oriented(a, start, node), oriented(b, node, end)], start, end);
    rest = [...rest.filter((port) => port !== a && port !== b), row];
  }
  return rest;
}

/** A piece and all that it is made of. */
export function withInner(port: Port): readonly Port[] {
  const isWhole = port.make.kind === "branch" || port.image === "current" || port.image === "voltage";
  return isWhole ? [port] : [port, ...port.make.of.flatMap(withInner)];
}

/** How many lines it takes to combine a piece into one: one for each row and block in it. */
export function combinedIn(port: Port): number {
  return withInner(port).filter(({ make }) => make.kind !== "branch").length;
}
