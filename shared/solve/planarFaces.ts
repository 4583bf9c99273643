import { blocksOf } from "./blocks";

/** An edge between two nodes; several may join the same two. */
export type Edge = { readonly edge: number; readonly from: number; readonly to: number };
/** An edge as a face walks along it: 1 from its `from` to its `to`. */
export type Walk = { readonly edge: number; readonly direction: 1 | -1; readonly start: number };
/** The walk around a face; over all faces each edge is walked once in each direction. */
export type Face = readonly Walk[];

type Fragment = { readonly edges: readonly Edge[]; readonly attachments: readonly number[] };

/**
 * The faces of a plane drawing of a graph of which any two edges lie on a common closed path; null where there is no
 * such drawing. Source: Demoucron, Malgrange, Pertuiset, Rev. Française Rech. Opér. 8, 1964 (from memory).
 */
export function facesOf(edges: readonly Edge[]): readonly Face[] | null {
  const cycle = firstCycle(edges);
  if (cycle === null) return [];
  let faces: Face[] = [cycle, reversedFace(cycle, edges)];
  const placed = new Set(cycle.map(({ edge }) => edge));
  while (placed.size < edges.length) {
    const next = tightestFragment(edges, placed, faces);
    if (next === null) return null;
    const path = pathThrough(next.fragment);
    const [first, second] = split(next.face, path, edges);
    faces = [...faces.filter((face) => face !== next.face), first, second];
    for (const { edge } of path) placed.add(edge);
  }
  return faces;
}

/** The faces of each block of a graph whose edges have two ends each; null where one of them has no plane drawing. */
export function facesOfBlocks(edges: readonly Edge[]): readonly (readonly Face[])[] | null {
  const byId = new Map(edges.map((edge) => [edge.edge, edge]));
  const all: (readonly Face[])[] = [];
  for (const block of blocksOf(edges.map(({ edge, from, to }) => ({ edge, ends: [from, to] })))) {
    const faces = facesOf(block.map((edge) => byId.get(edge) as Edge));
    if (faces === null) return null;
    all.push(faces);
  }
  return all;
}

/** The face with most edges, the first of several; undefined where there is none. */
export function longestFace(faces: readonly Face[]): Face | undefined {
  return faces.reduce<Face | undefined>((most, face) => (most && most.length >= face.length ? most : face), undefined);
}

function otherEnd({ from, to }: Edge, node: number): number {
  return from === node ? to : from;
}

function walk(edge: Edge, start: number): Walk {
  return { edge: edge.edge, direction: edge.from === start ? 1 : -1, start };
}

function reversedFace(face: Face, edges: readonly Edge[]): Face {
  const byId = new Map(edges.map((edge) => [edge.edge, edge]));
  return [...face].reverse().map(({ edge, start }) => {
    const found = byId.get(edge) as Edge;
    return walk(found, otherEnd(found, start));
  });
}

/** Some closed path: along a tree to an edge that closes it. */
function firstCycle(edges: readonly Edge[]): Face | null {
  const [first] = edges;
  if (first === undefined) return null;
  const back = shortestPath(edges.slice(1), first.to, (node) => node === first.from);
  return back === null ? null : [walk(first, first.from), ...back];
}

function shortestPath(edges: readonly Edge[], start: number, isEnd: (node: number) => boolean): Face | null {
  const arrival = new Map<number, { readonly by: Walk; readonly before: number } | null>([[start, null]]);
  const queue = [start];
  for (let at = queue.shift(); at !== undefined; at = queue.shift()) {
    for (const edge of edges) {
      if (edge.from !== at && edge.to !== at) continue;
      const to = otherEnd(edge, at);
      if (arrival.has(to)) continue;
      arrival.set(to, { by: walk(edge, at), before: at });
      if (isEnd(to)) return tracedBack(arrival, to);
      queue.push(to);
    }
  }
  return null;
}

function tracedBack(
  arrival: ReadonlyMap<number, { readonly by: Walk; readonly before: number } | null>,
  end: number,
): Face {
  const path: Walk[] = [];
  for (let step = arrival.get(end); step; step = arrival.get(step.before)) path.unshift(step.by);
  return path;
}

/** The fragment that fits into fewest faces, with one of them; null where one fits into none. */
function tightestFragment(
  edges: readonly Edge[],
  placed: ReadonlySet<number>,
  faces: readonly Face[],
): { readonly fragment: Fragment; readonly face: Face } | null {
  let best: { readonly fragment: Fragment; readonly face: Face; readonly count: number } | null = null;
  for (const fragment of fragmentsOf(edges, placed)) {
    const fitting = faces.filter((face) => {
      const nodes = new Set(face.map(({ start }) => start));
      return fragment.attachments.every((node) => nodes.has(node));
    });
    const [face] = fitting;
    if (face === undefined) return null;
    if (best === null || fitting.length < best.count) best = { fragment, face, count: fitting.length };
  }
  return best;
}

/** What is not placed yet, in pieces that meet only at placed nodes. */
function fragmentsOf(edges: readonly Edge[], placed: ReadonlySet<number>): Fragment[] {
  const isPlacedNode = new Set(edges.filter(({ edge }) => placed.has(edge)).flatMap(({ from, to }) => [from, to]));
  const left = new Set(edges.filter(({ edge }) => !placed.has(edge)));
  const fragments: Fragment[] = [];
  for (const seed of left) {
    const piece = new Set([seed]);
    const open = [seed.from, seed.to].filter((node) => !isPlacedNode.has(node));
    const seen = new Set(open);
    for (let node = open.pop(); node !== undefined; node = open.pop()) {
      for (const edge of left) {
        if (edge.from !== node && edge.to !== node) continue;
        piece.add(edge);
        const to = otherEnd(edge, node);
        if (isPlacedNode.has(to) || seen.has(to)) continue;
        seen.add(to);
        open.push(to);
      }
    }
    for (const edge of piece) left.delete(edge);
    const nodes = [...piece].flatMap(({ from, to }) => [from, to]);
    fragments.push({ edges: [...piece], attachments: [...new Set(nodes.filter((node) => isPlacedNode.has(node)))] });
  }
  return fragments;
}

/** A path through a fragment from one attachment to another. */
function pathThrough({ edges, attachments }: Fragment): Face {
  const [start, ...ends] = attachments;
  const path = start === undefined ? null : shortestPath(edges, start, (node) => ends.includes(node));
  if (path === null) throw new Error("pathThrough: a fragment of a block has two attachments");
  return path;
}

/** A face cut in two by a path between two of its nodes. */
function split(face: Face, path: Face, edges: readonly Edge[]): readonly [Face, Face] {
  const start = path[0]?.start as number;
  const back = reversedFace(path, edges);
  const end = back[0]?.start as number;
  const at = (node: number): number => face.findIndex((step) => step.start === node);
  const along = (from: number, to: number): Face => {
    const steps: Walk[] = [];
    for (let i = from; i !== to; i = (i + 1) % face.length) steps.push(face[i] as Walk);
    return steps;
  };
  return [
    [...along(at(start), at(end)), ...back],
    [...along(at(end), at(start)), ...path],
  ];
}
