import { setImmediate as nextTurn } from "node:timers/promises";
import type { RoomAccess } from "../access";
import { stepsFrom, triesFrom } from "../check";
import { ENTRY, type HistoryEntry, type Snapshot } from "../history";
import { accessFrom } from "../room/accessHistory";
import { SharedDoc } from "../room/sharedDoc";
import { SnapshotPlan, SnapshotSeries } from "../room/snapshotPlan";

export type RebuildLimits = { readonly updateStructs: number; readonly roomBytes: number };

export type Rebuilt =
  | { readonly ok: true; readonly snapshots: readonly Snapshot[] }
  /** An entry that no room would have taken in. */
  | { readonly ok: false; readonly sequence: number; readonly reason: string };

/** How long, in ms, it works on before others have their turn. */
const SLICE = 10;

/**
 * Goes through a whole history as a room would that takes its changes in one after another, and makes the snapshots that
 * the room would have, whose access began with `start`. Says which change a room would refuse.
 */
export async function rebuild(
  entries: readonly HistoryEntry[],
  limits: RebuildLimits,
  start: RoomAccess,
): Promise<Rebuilt> {
  const doc = new SharedDoc([], limits.updateStructs);
  const plan = new SnapshotPlan(0, []);
  const series = new SnapshotSeries(null);
  const snapshots: Snapshot[] = [];
  let sliceEnd = performance.now() + SLICE;
  try {
    for (const [index, entry] of entries.entries()) {
      const reason = entry.kind === ENTRY.update ? refusalOf(doc, entry.bytes, limits) : null;
      if (reason !== null) return { ok: false, sequence: entry.sequence, reason };
      series.count(entry.bytes.length);
      if (plan.isDueAfter(entry.bytes) || index === entries.length - 1) {
        const snapshot = snapshotAt(doc, entry, snapshots.at(-1) ?? null, entries, start);
        if (snapshot) keep(snapshots, snapshot, series.added(snapshot.sequence));
        if (snapshot) plan.taken(snapshot.bytes);
      }
      if (performance.now() < sliceEnd) continue;
      await nextTurn();
      sliceEnd = performance.now() + SLICE;
    }
    return { ok: true, snapshots };
  } finally {
    doc.destroy();
  }
}

function keep(snapshots: Snapshot[], snapshot: Snapshot, superfluous: number | null): void {
  if (snapshots.at(-1)?.sequence === superfluous) snapshots.pop();
  snapshots.push(snapshot);
}

function refusalOf(doc: SharedDoc, update: Uint8Array, { roomBytes }: RebuildLimits): string | null {
  const applied = doc.apply(update);
  if (applied.outcome === "refused") return applied.reason;
  if (applied.outcome === "incomplete") return "it builds on changes that are not in the history";
  if (doc.size > roomBytes) doc.compact();
  return doc.size > roomBytes ? `a room holds at most ${roomBytes} bytes` : null;
}

function snapshotAt(
  doc: SharedDoc,
  { room, sequence, time }: HistoryEntry,
  before: Snapshot | null,
  entries: readonly HistoryEntry[],
  start: RoomAccess,
): Snapshot | null {
  const bytes = doc.compact();
  if (!bytes) return null;
  const stored = { snapshot: before, entries: entries.slice(before?.sequence ?? 0, sequence) };
  const access = JSON.stringify({
    ...accessFrom(stored, start),
    tries: triesFrom(stored),
    steps: stepsFrom(stored),
  });
  return { room, sequence, time, bytes, thin: doc.thin(), access };
}
