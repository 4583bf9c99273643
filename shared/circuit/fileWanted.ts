import type { Wanted } from "./circuit";
import type { Unanswerable } from "./circuitFile";
import { currentWay } from "./fileCurrent";
import { type FileNames, isKnownNode, isKnownPart } from "./fileNames";
import type { FilePath, FileProblem } from "./fileProblem";
import type { WantedEntry } from "./fileWantedSchema";
import { nodeId, partId } from "./part";

/** What a wanted quantity is read with. */
export type WantedContext = {
  readonly path: FilePath;
  readonly names: FileNames;
  readonly reference: string | null;
  readonly problems: FileProblem[];
};

type Asked<Q extends WantedEntry["quantity"]> = Extract<WantedEntry, { quantity: Q }>;

/**
 * The wanted quantity that an entry of the right shape asks for; null where problems were added. An entry that asks
 * for an instant or a time constant is read as any other, so that its names are checked, and is told by
 * {@link unanswerableFrom}.
 */
export function wantedFrom(entry: WantedEntry, context: WantedContext): Wanted | null {
  switch (entry.quantity) {
    case "current":
      return wantedCurrent(entry, context);
    case "voltage":
      return wantedVoltage(entry, context);
    case "power":
      if (!isKnownPart(entry.through, [...context.path, "through"], context.names, context.problems)) return null;
      return { name: entry.name ?? null, kind: "power", of: partId(entry.through) };
    case "time-constant":
      checkTimeConstant(entry, context);
      return null;
    default:
      return wantedOfPort(entry, context);
  }
}

/** The entry as one that no steady state answers, or null where one does. */
export function unanswerableFrom(entry: WantedEntry, index: number): Unanswerable | null {
  const reason = entry.quantity === "time-constant" ? "timeConstant" : isAtInstant(entry) ? "instant" : null;
  if (reason === null) return null;
  const { answer: _answer, rounded_to: _roundedTo, ...asked } = entry;
  return { index, name: entry.name ?? madeName(entry), reason, asked };
}

function isAtInstant(entry: WantedEntry): boolean {
  return entry.time !== undefined && entry.time !== null;
}

function madeName(entry: WantedEntry): string {
  switch (entry.quantity) {
    case "current":
      return `I(${entry.through})`;
    case "voltage":
      return `V(${entry.across ?? entry.at ?? `${entry.from}, ${entry.to}`})`;
    case "power":
      return `P(${entry.through})`;
    case "time-constant":
      return `τ(${entry.through ?? `${entry.from}, ${entry.to}`})`;
    default:
      return `${entry.quantity}(${entry.from}, ${entry.to})`;
  }
}

function wantedCurrent(entry: Asked<"current">, { path, names, problems }: WantedContext): Wanted | null {
  if (!isKnownPart(entry.through, [...path, "through"], names, problems)) return null;
  const part = names.elements.get(entry.through);
  // A part that could not be read has its own problems; which way its current goes must wait for them.
  const way = part === undefined ? null : currentWay(entry, part, path, problems);
  return way === null ? null : { name: entry.name ?? null, kind: "current", through: partId(entry.through), ...way };
}

function wantedVoltage(entry: Asked<"voltage">, context: WantedContext): Wanted | null {
  const { path, problems } = context;
  const across = entry.across ?? null;
  const at = entry.at ?? null;
  const hasEnds = (entry.from ?? entry.to ?? null) !== null;
  if (across !== null && (at !== null || hasEnds)) {
    problems.push({ path: [...path, "across"], code: "fieldClash", other: at !== null ? "at" : "from" });
    return null;
  }
  if (at !== null && hasEnds) {
    problems.push({ path: [...path, "at"], code: "fieldClash", other: "from" });
    return null;
  }
  if (across !== null) return voltageAcross(entry, across, context);
  if (at !== null) return voltageAt(entry, at, context);
  for (const field of ["from", "to"] as const) {
    if (entry[field] === undefined || entry[field] === null)
      problems.push({ path: [...path, field], code: "needsFromTo" });
  }
  return betweenNodes(entry.from ?? null, entry.to ?? null, context, ([from, to]) => ({
    name: entry.name ?? null,
    kind: "voltage",
    from: nodeId(from),
    to: nodeId(to),
  }));
}

function voltageAcross(
  entry: Asked<"voltage">,
  across: string,
  { path, names, problems }: WantedContext,
): Wanted | null {
  if (!isKnownPart(across, [...path, "across"], names, problems)) return null;
  const part = names.elements.get(across);
  if (part === undefined) return null;
  if (part.kind === "ideal-opamp" || part.kind === "ideal-transformer") {
    problems.push({ path: [...path, "across"], code: "notTwoTerminal", part: across, subject: part.kind });
    return null;
  }
  const [from, to] = part.nodes;
  return { name: entry.name ?? null, kind: "voltage", from: nodeId(from), to: nodeId(to) };
}

function voltageAt(entry: Asked<"voltage">, at: string, context: WantedContext): Wanted | null {
  const { path, names, reference, problems } = context;
  if (!isKnownNode(at, [...path, "at"], names, problems)) return null;
  if (reference === null) {
    problems.push({ path: [...path, "at"], code: "noReferenceNode" });
    return null;
  }
  return { name: entry.name ?? null, kind: "voltage", from: nodeId(at), to: nodeId(reference) };
}

function wantedOfPort(
  entry: Exclude<WantedEntry, Asked<"current" | "voltage" | "power" | "time-constant">>,
  context: WantedContext,
): Wanted | null {
  return betweenNodes(entry.from, entry.to, context, ([from, to]) => ({
    name: entry.name ?? null,
    kind: entry.quantity,
    from: nodeId(from),
    to: nodeId(to),
  }));
}

/** What `make` gives for two known, different nodes; null, with problems added, for others. */
function betweenNodes(
  from: string | null,
  to: string | null,
  { path, names, problems }: WantedContext,
  make: (ends: readonly [string, string]) => Wanted,
): Wanted | null {
  const knowsFrom = from !== null && isKnownNode(from, [...path, "from"], names, problems);
  const knowsTo = to !== null && isKnownNode(to, [...path, "to"], names, problems);
  if (!knowsFrom || !knowsTo) return null;
  if (from !== to) return make([from, to]);
  problems.push({ path: [...path, "to"], code: "sameNode", node: to });
  return null;
}

function checkTimeConstant(entry: Asked<"time-constant">, { path, names, problems }: WantedContext): void {
  if (typeof entry.through === "string") isKnownPart(entry.through, [...path, "through"], names, problems);
  for (const field of ["from", "to"] as const) {
    const node = entry[field];
    if (typeof node === "string") isKnownNode(node, [...path, field], names, problems);
  }
}
