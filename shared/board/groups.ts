import { GROUP_LIMIT, MEMBER_LIMIT } from "../circuit/groupLimits";
import { type PartId, partId } from "../circuit/part";
import type { Board, BoardGroup, BoardPart, EntryId } from "./board";
import type { FieldValue, ReadFields } from "./document";
import type { BoardProblem } from "./problem";
import { malformed } from "./readFields";

/** The fields of a group of sources, given by their entries. */
export function groupFields(sources: readonly EntryId[]): Readonly<Record<string, FieldValue>> {
  return { sources: [...new Set(sources)].sort().join(" ") };
}

/** Reads a group's fields; throws Malformed. Its members may be gone, see {@link standingGroups}. */
export function readGroup(fields: ReadFields, id: EntryId): BoardGroup {
  const text = fields.get("sources");
  const words = typeof text === "string" ? text.split(" ", MEMBER_LIMIT) : [];
  const sources = words.filter((word) => word !== "") as EntryId[];
  return sources.length === 0 ? malformed("sources") : { id, sources };
}

/**
 * The groups that stand: at least two of the board's independent sources and not all of them, which is the total; no
 * two of the same sources. Members in the board's order. A group whose sources are deleted falls away without a word,
 * and is back when they are.
 */
export function standingGroups(
  groups: readonly BoardGroup[],
  parts: readonly BoardPart[],
  problems: BoardProblem[],
): readonly BoardGroup[] {
  const all = parts.filter(isSourceOfBoard).map((part) => part.id);
  const standing = new Map<string, BoardGroup>();
  for (const { id, sources } of groups) {
    const members = new Set(sources);
    const present = all.filter((source) => members.has(source));
    const key = present.join(" ");
    if (present.length >= 2 && present.length < all.length && !standing.has(key)) {
      standing.set(key, { id, sources: present });
    }
  }
  if (standing.size > GROUP_LIMIT) {
    problems.push({ code: "tooManyEntries", map: "group of sources", limit: GROUP_LIMIT, entry: null });
  }
  return [...standing.values()].slice(0, GROUP_LIMIT);
}

function isSourceOfBoard(part: BoardPart): boolean {
  return part.kind === "voltage-source" || part.kind === "current-source";
}

/** The board's groups by the names of their sources, but for those with a source that the circuit leaves out. */
export function groupsOfCircuit(board: Board, given: ReadonlySet<string>): readonly (readonly PartId[])[] {
  const names = new Map(board.parts.map((part) => [part.id, part.name]));
  return board.groups
    .map(({ sources }) => sources.map((source) => partId(names.get(source) ?? "")))
    .filter((group) => group.every((source) => given.has(source)));
}
