import * as Y from "yjs";
import type { HistoryEntry } from "../../server/history";
import { boardUpdate } from "../../server/roomStart";
import {
  applyCommand,
  boardFromFile,
  type Command,
  type EntryId,
  entryId,
  inkSpot,
  LOCAL,
  readBoard,
} from "../../shared/board";
import { readCircuitFile } from "../../shared/circuit";
import { layOutFile } from "../../shared/layout";
import { type PointerSample, SAMPLE_INTERVAL, TRACK_SPAN, writeTrack } from "../../shared/replay";
import { boardProblem } from "./circuits";

/** What a synthetic session is made of. Times in ms. */
export type SessionPlan = {
  readonly participants: number;
  readonly length: number;
  readonly updates: number;
  /** Share of the updates that are strokes of ink; the rest changes, moves and names parts, and writes notes. */
  readonly ink: number;
  /** Share of the time in which each participant moves the pointer. */
  readonly pointing: number;
};

export type SessionEntry = Omit<HistoryEntry, "room">;

const START = 1_700_000_000_000;
/** Most marks of ink on the board: then half of them are rubbed out. */
const MARKS = 400;

export const participantOf = (index: number): string => `participant-${String(index).padStart(10, "0")}`;

/** A session as a room would have recorded it, the same for the same plan. */
export function sessionOf(plan: SessionPlan): readonly SessionEntry[] {
  const random = generator(7);
  const events: Omit<SessionEntry, "sequence">[] = [
    ...Array.from({ length: plan.participants }, (_, index) => admission(index)),
    ...edits(plan, random),
    ...Array.from({ length: plan.participants }, (_, index) => tracks(plan, index, random)).flat(),
  ];
  return events.sort((a, b) => a.time - b.time).map((event, index) => ({ ...event, sequence: index + 1 }));
}

function admission(index: number): Omit<SessionEntry, "sequence"> {
  const participant = participantOf(index);
  const change = { do: "admit", participant, name: `Kim ${index}`, role: index === 0 ? "instructor" : "learner" };
  return { time: START, participant, kind: "settings", bytes: json(change) };
}

function edits(
  { participants, length, updates, ink }: SessionPlan,
  random: () => number,
): Omit<SessionEntry, "sequence">[] {
  const doc = new Y.Doc();
  const events: Omit<SessionEntry, "sequence">[] = [];
  const marks: EntryId[] = [];
  let by = 0;
  doc.on("update", (bytes: Uint8Array) => {
    const time = START + 1000 + Math.round((events.length / updates) * (length - 1000));
    events.push({ time, participant: participantOf(by), kind: "update", bytes });
  });
  Y.applyUpdate(doc, circuit());
  const parts = readBoard(doc).parts.map(({ id }) => id);
  for (let edit = 1; edit < updates; edit++) {
    by = Math.floor(random() * participants);
    // Each participant's page has a client of its own.
    doc.clientID = 1000 + by;
    const part = parts[Math.floor(random() * parts.length)] ?? entryId("");
    applyCommand(doc, random() < ink ? stroke(edit, marks, random) : change(edit, part, random), LOCAL);
  }
  doc.destroy();
  return events;
}

/** A stroke; once there are many, it comes with the rubbing out of half of them. */
function stroke(edit: number, marks: EntryId[], random: () => number): Command {
  let [x, y] = [random() * 40, random() * 20];
  const spots = Array.from({ length: 8 + Math.floor(random() * 30) }, () => {
    x += random() - 0.4;
    y += random() - 0.5;
    return inkSpot(x, y);
  });
  const id = entryId(`ink${edit}`);
  const placed = { do: "placeStroke", id, kind: "pen", colour: "ink", card: [], spots } as const;
  const gone = marks.length < MARKS ? [] : marks.splice(0, MARKS / 2);
  marks.push(id);
  return gone.length === 0 ? placed : { do: "all", commands: [placed, { do: "eraseInk", ids: gone }] };
}

function change(edit: number, id: EntryId, random: () => number): Command {
  const by = { x: Math.round(random() * 2 - 1), y: Math.round(random() * 2 - 1) };
  switch (edit % 4) {
    case 0:
      return { do: "setValue", id, value: `${Math.ceil(random() * 99)} Ω` };
    case 1:
      return { do: "reverse", id };
    case 2: {
      const at = inkSpot(random() * 40, random() * 20);
      return {
        do: "placeNote",
        id: entryId(`note${edit % 40}`),
        colour: "ink",
        card: [],
        at,
        text: `see line ${edit}`,
      };
    }
    default:
      return { do: "move", ids: [id], by };
  }
}

/** One participant's pointer tracks: spells of moving about, each as long as a track. */
function tracks(
  { length, pointing }: SessionPlan,
  index: number,
  random: () => number,
): Omit<SessionEntry, "sequence">[] {
  const events: Omit<SessionEntry, "sequence">[] = [];
  for (let from = 0; from + TRACK_SPAN <= length; from += TRACK_SPAN) {
    if (random() >= pointing) continue;
    let [x, y] = [random() * 40, random() * 20];
    const samples: PointerSample[] = [];
    for (let time = 0; time < TRACK_SPAN; time += SAMPLE_INTERVAL) {
      x += (random() - 0.5) * 2;
      y += (random() - 0.5) * 2;
      samples.push({ time: START + from + time, at: { x, y } });
    }
    const time = START + from + TRACK_SPAN;
    events.push({ time, participant: participantOf(index), kind: "pointers", bytes: writeTrack(samples, time) });
  }
  return events;
}

function circuit(): Uint8Array {
  const reading = readCircuitFile(boardProblem());
  const board = reading.ok ? boardFromFile(layOutFile(reading.value)) : null;
  if (board === null) throw new Error("the bench's circuit cannot be drawn");
  return boardUpdate(board);
}

const json = (value: object) => new TextEncoder().encode(JSON.stringify(value));

/** Numbers from 0 to 1, always the same ones (a multiplicative congruential generator, Park and Miller 1988). */
function generator(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 48_271) % 2_147_483_647;
    return state / 2_147_483_647;
  };
}
