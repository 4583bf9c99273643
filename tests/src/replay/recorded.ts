import * as Y from "yjs";
import {
  applyCommand,
  type Board,
  type Command,
  type Ink,
  LOCAL,
  readBoard,
  readInk,
  thinBoard,
  writeThinBoard,
} from "../../../shared/board";
import {
  afterEvent,
  BEGINNING,
  type Checkpoint,
  type Moment,
  type ReplayEntry,
  readEvent,
  type Timeline,
  timelineOf,
} from "../../../shared/replay";
import type { ReplaySource } from "../../../src/replay/replayApi";

/** One thing that happened: a command on the board, or an entry of another kind with its JSON. */
export type Happening = {
  /** Milliseconds after the one before. */
  readonly after: number;
  readonly participant: number;
} & (
  | {
      readonly command: Command;
      /** The entry up to which its author had seen the board, where that is not all of it. */
      readonly seen?: number;
    }
  | { readonly kind: string; readonly json?: unknown; readonly bytes?: Uint8Array }
);

export type Recorded = {
  readonly timeline: Timeline;
  readonly entries: readonly ReplayEntry[];
  /** What the room was after each entry, recorded while it happened; the first is the empty room. */
  readonly live: readonly { readonly board: Board; readonly ink: Ink; readonly moment: Moment }[];
  /** The room as it is stored, after each entry, whole and thin. */
  readonly checkpoints: readonly { readonly whole: Checkpoint; readonly thin: Checkpoint }[];
};

/** When recorded sessions begin, in ms since 1970. */
export const BEGAN = 1_700_000_000_000;

/** Plays a session as a room would live through it, and records it. A command that changes nothing leaves no entry. */
export function record(happenings: readonly Happening[]): Recorded {
  const doc = new Y.Doc();
  const entries: ReplayEntry[] = [];
  const live: Recorded["live"][number][] = [{ board: readBoard(doc), ink: readInk(doc), moment: BEGINNING }];
  const checkpoints = [checkpointsOf(doc, BEGINNING)];
  let time = BEGAN;
  let participant = 0;
  let moment = BEGINNING;
  const note = (kind: string, bytes: Uint8Array) => {
    const entry = { sequence: entries.length + 1, time, participant, kind, bytes };
    entries.push(entry);
    moment = afterEvent(moment, readEvent(entry));
    live.push({ board: readBoard(doc), ink: readInk(doc), moment });
    checkpoints.push(checkpointsOf(doc, moment));
  };
  doc.on("update", (update: Uint8Array) => note("update", update));
  for (const happening of happenings) {
    time += happening.after;
    participant = happening.participant;
    if ("command" in happening) {
      const seen = checkpoints[happening.seen ?? entries.length] ?? checkpoints[0];
      if (happening.seen === undefined) applyCommand(doc, happening.command, LOCAL);
      else Y.applyUpdate(doc, doneBySomebody(happening.command, seen?.whole.board ?? new Uint8Array()));
    } else note(happening.kind, happening.bytes ?? new TextEncoder().encode(JSON.stringify(happening.json ?? {})));
  }
  return { timeline: timelineOf(entries), entries, live, checkpoints };
}

function checkpointsOf(doc: Y.Doc, moment: Moment): Recorded["checkpoints"][number] {
  const thin = thinBoard(doc);
  if (thin === null) throw new Error("a board of ours can't be thinned");
  return {
    whole: { moment, board: Y.encodeStateAsUpdate(doc), isThin: false },
    thin: { moment, board: writeThinBoard(thin), isThin: true },
  };
}

/** What a command makes of a board as somebody has it. */
function doneBySomebody(command: Command, board: Uint8Array): Uint8Array {
  const own = new Y.Doc();
  Y.applyUpdate(own, board);
  const before = Y.encodeStateVector(own);
  applyCommand(own, command, LOCAL);
  return Y.encodeStateAsUpdate(own, before);
}

const NOTHING_OUTDATED = { tries: [], steps: [], retold: [] };

/** A server that has a recorded session, a thin stored board every `spacing` entries, and gives `most` entries at once. */
export function serve({ entries, checkpoints }: Recorded, spacing: number, most: number) {
  const asked: string[] = [];
  const source: ReplaySource = {
    entries: async (from, to) => {
      asked.push(`entries ${from} ${to}`);
      const given = entries.slice(from - 1, Math.min(to, from - 1 + most));
      const last = given.at(-1)?.sequence ?? 0;
      return { ok: true, value: { entries: given, next: last < to && last < entries.length ? last + 1 : 0 } };
    },
    board: async (at, unfit) => {
      asked.push(unfit === null ? `board ${at}` : `board ${at} unfit ${unfit}`);
      const sequence = Math.floor(at / spacing) * spacing;
      const stored = checkpoints[sequence] as Recorded["checkpoints"][number];
      return { ok: true, value: sequence === unfit ? stored.whole : stored.thin };
    },
    answers: async (at) => {
      asked.push(`answers ${at}`);
      return {
        ok: true,
        value: {
          at,
          answers: { revision: at, report: null, boardProblems: [], failure: null },
          outdated: NOTHING_OUTDATED,
        },
      };
    },
    workings: async (at) => {
      asked.push(`workings ${at}`);
      return { ok: true, value: { at, workings: { revision: at, workings: [], powerTable: null, failure: null } } };
    },
  };
  return { source, asked };
}
