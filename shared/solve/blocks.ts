type Edge = { readonly edge: number; readonly ends: readonly [number, number] };

/**
 * The blocks of a graph: sets of edges of which any two lie on a common closed path; an edge on none is a block alone.
 * No current runs through a block without a source. Source: Hopcroft and Tarjan, CACM 16(6), 1973 (from memory).
 */
export function blocksOf(edges: readonly Edge[]): number[][] {
  const at = new Map<number, Edge[]>();
  for (const edge of edges) {
    for (const end of edge.ends) at.set(end, [...(at.get(end) ?? []), edge]);
  }
  const search = new BlockSearch(at);
  for (const node of at.keys()) search.start(node);
  return search.blocks;
}

class BlockSearch {
  readonly blocks: number[][] = [];
  private readonly at: ReadonlyMap<number, readonly Edge[]>;
  private readonly depthOf = new Map<number, number>();
  private readonly stack: number[] = [];
  private readonly used = new Set<number>();

  constructor(at: ReadonlyMap<number, readonly Edge[]>) {
    this.at = at;
  }

  start(node: number): void {
    if (!this.depthOf.has(node)) this.visit(node, 0);
  }

  /** Returns the lowest depth that an edge from below this node leads back to. */
  private visit(node: number, depth: number): number {
    this.depthOf.set(node, depth);
    let lowest = depth;
    for (const { edge, ends } of this.at.get(node) ?? []) {
      if (this.used.has(edge)) continue;
      this.used.add(edge);
      const other = ends[0] === node ? ends[1] : ends[0];
      const height = this.stack.push(edge);
      const before = this.depthOf.get(other);
      if (before !== undefined) {
        lowest = Math.min(lowest, before);
        continue;
      }
      const reached = this.visit(other, depth + 1);
      lowest = Math.min(lowest, reached);
      if (reached >= depth) this.blocks.push(this.stack.splice(height - 1));
    }
    return lowest;
  }
}
