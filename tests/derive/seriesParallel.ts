import type { RawElement } from "../independent/elements";

type Edge = { readonly a: string; readonly b: string };

/**
 * Whether a circuit of resistors with this source alone is series-parallel as the source sees it: zeroed sources as
 * wires and gaps, parts without a closed path through the source away, then rows and blocks merged until one is left.
 * Written for the tests from the definition, without the code under test.
 */
export function isSeriesParallel(elements: readonly RawElement[], source: string): boolean {
  const parent = new Map<string, string>();
  const find = (node: string): string => {
    const up = parent.get(node) ?? node;
    return up === node ? node : find(up);
  };
  for (const { id, kind, nodes } of elements) {
    if (kind === "voltage-source" && id !== source) parent.set(find(nodes[0] as string), find(nodes[1] as string));
  }
  const driven = elements.find(({ id }) => id === source) as RawElement;
  const ends = [find(driven.nodes[0] as string), find(driven.nodes[1] as string)];
  let edges = elements
    .filter(({ kind }) => kind === "resistor")
    .map(({ nodes }): Edge => ({ a: find(nodes[0] as string), b: find(nodes[1] as string) }));
  for (let before = -1; before !== edges.length; ) {
    before = edges.length;
    edges = merged(edges.filter(({ a, b }) => a !== b));
    edges = straightened(edges, ends);
  }
  // Left over away from the source: a part that hangs on a single node carries nothing.
  const touching = edges.filter(({ a, b }) => [a, b].sort().join() === [...ends].sort().join());
  return edges.length === touching.length;
}

function merged(edges: readonly Edge[]): Edge[] {
  return [...new Map(edges.map((edge) => [[edge.a, edge.b].sort().join(), edge])).values()];
}

/** Rows become one edge; dead ends go. */
function straightened(edges: readonly Edge[], ends: readonly string[]): Edge[] {
  let rest = [...edges];
  for (const node of new Set(edges.flatMap(({ a, b }) => [a, b]))) {
    if (ends.includes(node)) continue;
    const here = rest.filter(({ a, b }) => a === node || b === node);
    if (here.length > 2) continue;
    const others = here.map(({ a, b }) => (a === node ? b : a));
    rest = rest.filter((edge) => !here.includes(edge));
    if (others.length === 2) rest.push({ a: others[0] as string, b: others[1] as string });
  }
  return rest;
}
