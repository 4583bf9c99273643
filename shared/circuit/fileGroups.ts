import type { Circuit } from "./circuit";
import type { SourceGroup } from "./circuitFile";
import type { GroupEntry } from "./fileGroupSchema";
import { type FileNames, isKnownPart } from "./fileNames";
import type { FilePath, FileProblem } from "./fileProblem";
import { GROUP_LIMIT } from "./groupLimits";
import { isIndependentSource, isSourceKind, type PartId, partId } from "./part";

type Context = {
  readonly names: FileNames;
  /** How many independent sources the circuit has; null where an element could not be read and might be one. */
  readonly sourceCount: number | null;
  readonly problems: FileProblem[];
};

/** The groups of a file's entries of the right shape, each with its place in the list. */
export function groupsFrom(
  entries: readonly (readonly [index: number, entry: GroupEntry])[],
  context: Context,
): readonly SourceGroup[] {
  const taken = new Map<string, number>();
  return entries.map(([index, { sources }]) => {
    const path = ["groups", index, "sources"];
    checkMembers(sources, path, context);
    const key = keyOf(sources);
    const first = taken.get(key);
    if (first !== undefined) context.problems.push({ path, code: "groupTaken", by: ["groups", first] });
    else taken.set(key, index);
    if (new Set(sources).size === context.sourceCount) context.problems.push({ path, code: "groupOfAll" });
    return sources.map(partId);
  });
}

function checkMembers(sources: readonly string[], path: FilePath, { names, problems }: Context): void {
  for (const [place, source] of sources.entries()) {
    const at = [...path, place];
    if (sources.indexOf(source) < place) problems.push({ path: at, code: "namedTwice", name: source });
    else if (isKnownPart(source, at, names, problems)) {
      const kind = names.elements.get(source)?.kind;
      // An element that could not be read has its own problems.
      if (kind !== undefined && !isSourceKind(kind)) {
        problems.push({ path: at, code: "notASource", part: source, subject: kind });
      }
    }
  }
}

/**
 * The groups that stand in a circuit: at least two of its independent sources, and not all of them, which is the total;
 * no two of the same sources, and no more than a file may hold.
 */
export function standingGroups(groups: readonly SourceGroup[], { parts }: Circuit): readonly SourceGroup[] {
  const sources = new Set<PartId>(parts.filter(isIndependentSource).map((part) => part.id));
  const standing = new Map<string, SourceGroup>();
  for (const group of groups) {
    const members = [...new Set(group)];
    const isSound = members.length >= 2 && members.length < sources.size && members.every((id) => sources.has(id));
    if (isSound && !standing.has(keyOf(members))) standing.set(keyOf(members), members);
  }
  return [...standing.values()].slice(0, GROUP_LIMIT);
}

function keyOf(sources: readonly string[]): string {
  return JSON.stringify([...new Set(sources)].sort());
}
