import type { Winding } from "./circuit";
import type { ElementEntry } from "./fileElementSchema";
import type { FilePath, FileProblem } from "./fileProblem";
import type { WantedEntry } from "./fileWantedSchema";
import type { Direction } from "./part";

type CurrentEntry = Extract<WantedEntry, { quantity: "current" }>;
/** One way for a current to go through a part, by the names that a file gives its two ends. */
type Way = { readonly winding: Winding; readonly direction: Direction; readonly from: string; readonly to: string };
export type CurrentWay = Pick<Way, "winding" | "direction">;

/**
 * Which way a wanted current goes through the part it names. `from` is where it enters, `to` where it leaves; each
 * may be left out. Where nothing tells the way it is the part's usual one: forward, and out of an op amp's output.
 */
export function currentWay(
  wanted: CurrentEntry,
  part: ElementEntry,
  path: FilePath,
  problems: FileProblem[],
): CurrentWay | null {
  const add = (field: string, problem: CurrentProblem) => problems.push({ path: [...path, field], ...problem });
  if (wanted.winding !== undefined && part.kind !== "ideal-transformer") {
    add("winding", { code: "noWindings", part: part.id });
    return null;
  }
  const fitting = waysThrough(part).filter((way) => fitsEnds(way, wanted));
  if (fitting.length === 0) {
    for (const [field, problem] of endProblems(wanted, part)) add(field, problem);
    return null;
  }
  const inWinding = fitting.filter((way) => wanted.winding === undefined || way.winding === wanted.winding);
  if (inWinding.length === 0) {
    add("winding", { code: "otherWinding", part: part.id });
    return null;
  }
  const ways = inWinding.filter((way) => wanted.direction === undefined || way.direction === wanted.direction);
  const [first] = ways;
  if (first === undefined) {
    add("direction", { code: "directionClash" });
    return null;
  }
  const isOpen = ways.some((way) => way.winding !== first.winding) && hasEnd(wanted);
  if (isOpen) {
    problems.push({ path, code: "whichWinding", part: part.id });
    return null;
  }
  return { winding: first.winding, direction: first.direction };
}

type CurrentProblem = FileProblem extends infer P ? (P extends FileProblem ? Omit<P, "path"> : never) : never;

function hasEnd({ from, to }: CurrentEntry): boolean {
  return typeof from === "string" || typeof to === "string";
}

function fitsEnds(way: Way, { from, to }: CurrentEntry): boolean {
  return (from ?? way.from) === way.from && (to ?? way.to) === way.to;
}

/** All ways through a part, its usual one first. An op amp's inner end goes by the op amp's own id. */
function waysThrough(part: ElementEntry): readonly Way[] {
  if (part.kind === "ideal-transformer") {
    const [p, q, r, s] = part.nodes;
    return [...bothWays("primary", p, q), ...bothWays("secondary", r, s)];
  }
  if (part.kind === "ideal-opamp") return bothWays("primary", part.nodes[2], part.id).toReversed();
  return bothWays("primary", part.nodes[0], part.nodes[1]);
}

function bothWays(winding: Winding, plus: string, minus: string): readonly Way[] {
  return [
    { winding, direction: "forward", from: plus, to: minus },
    { winding, direction: "backward", from: minus, to: plus },
  ];
}

function endProblems(wanted: CurrentEntry, part: ElementEntry): [string, CurrentProblem][] {
  const ends = [...new Set(waysThrough(part).map((way) => way.from))];
  const found: [string, CurrentProblem][] = [];
  for (const field of ["from", "to"] as const) {
    const node = wanted[field];
    if (typeof node !== "string" || ends.includes(node)) continue;
    found.push([field, { code: "notATerminal", node, part: part.id, terminals: ends }]);
  }
  if (found.length > 0) return found;
  const { from, to } = wanted;
  if (typeof from === "string" && from === to) return [["to", { code: "sameNode", node: from }]];
  return [["to", { code: "otherWinding", part: part.id }]];
}
