/** Disjoint sets of nodes 0 … count − 1 (union by the lower index, so that node 0 always stands for its own set). */
export type NodeSets = {
  find(node: number): number;
  /** Joins two sets; false where they were one already. */
  join(a: number, b: number): boolean;
};

export function nodeSets(count: number): NodeSets {
  const parent: number[] = [];
  for (let node = 0; node < count; node++) parent.push(node);
  return {
    find(node) {
      return rootOf(parent, node);
    },
    join(a, b) {
      const [left, right] = [rootOf(parent, a), rootOf(parent, b)];
      if (left === right) return false;
      parent[Math.max(left, right)] = Math.min(left, right);
      return true;
    },
  };
}

function rootOf(parent: number[], node: number): number {
  let root = node;
  while (parent[root] !== root) root = parent[root] as number;
  // Paths are shortened on the way, or a long ladder of wires would cost its length at each look.
  for (let at = node; at !== root; ) {
    const next = parent[at] as number;
    parent[at] = root;
    at = next;
  }
  return root;
}
