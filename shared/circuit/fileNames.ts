import type { ElementEntry } from "./fileElementSchema";
import type { FilePath, FileProblem } from "./fileProblem";
import { nearestName } from "./nearestName";

const SUGGESTION_LIMIT = 100;

/**
 * The names that a file's elements bring in. Elements of a wrong shape count as far as their names can be read, so
 * that what refers to them is not called unknown; only `elements` holds the readable ones.
 */
export type FileNames = {
  readonly parts: ReadonlySet<string>;
  readonly nodes: ReadonlySet<string>;
  /** By id; of two with one id, the first. */
  readonly elements: ReadonlyMap<string, ElementEntry>;
};

/** Gathers the names and adds a problem for each id that is given twice. `raw` is the list as it stands in the file. */
export function namesIn(
  raw: readonly unknown[],
  elements: readonly ElementEntry[],
  problems: FileProblem[],
): FileNames {
  const firstIndex = new Map<string, number>();
  const nodes = new Set<string>();
  for (const [index, element] of raw.entries()) {
    if (typeof element !== "object" || element === null) continue;
    const { id, nodes: joined } = element as { readonly id?: unknown; readonly nodes?: unknown };
    if (Array.isArray(joined)) for (const node of joined) if (typeof node === "string") nodes.add(node);
    if (typeof id !== "string") continue;
    const first = firstIndex.get(id);
    if (first === undefined) firstIndex.set(id, index);
    else problems.push({ path: ["elements", index, "id"], code: "nameTaken", name: id, by: ["elements", first] });
  }
  const byId = new Map<string, ElementEntry>();
  for (const element of elements) if (!byId.has(element.id)) byId.set(element.id, element);
  return { parts: new Set(firstIndex.keys()), nodes, elements: byId };
}

/** Whether some element is joined to `node`; adds a problem at `path` where none is. */
export function isKnownNode(node: string, path: FilePath, names: FileNames, problems: FileProblem[]): boolean {
  if (names.nodes.has(node)) return true;
  problems.push({ path, code: "unknownNode", node, nearest: suggestion(node, names.nodes, problems.length) });
  return false;
}

/** Whether some element is called `part`; adds a problem at `path` where none is. */
export function isKnownPart(part: string, path: FilePath, names: FileNames, problems: FileProblem[]): boolean {
  if (names.parts.has(part)) return true;
  problems.push({ path, code: "unknownPart", part, nearest: suggestion(part, names.parts, problems.length) });
  return false;
}

/**
 * {@link nearestName}, for the first hundred problems of a file only: thousands of unknown names against thousands of
 * known ones would take minutes, and nobody reads so many suggestions.
 */
export function suggestion(name: string, known: Iterable<string>, problemsBefore: number): string | null {
  return problemsBefore < SUGGESTION_LIMIT ? nearestName(name, known) : null;
}
