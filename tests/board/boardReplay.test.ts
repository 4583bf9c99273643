import fc from "fast-check";
import { describe, expect, it } from "vitest";
import * as Y from "yjs";
import {
  applyCommand,
  BoardReplay,
  type BoardUpdate,
  type Command,
  entryId,
  inkSpot,
  LOCAL,
  readBoard,
  readInk,
} from "../../shared/board";
import { command } from "./anyCommand";
import { R } from "./builders";

const stroke: fc.Arbitrary<Command> = fc.record({
  do: fc.constant("placeStroke" as const),
  id: fc.constantFrom("i1", "i2", "i3").map(entryId),
  kind: fc.constant("pen" as const),
  colour: fc.constant("ink" as const),
  card: fc.constant([]),
  spots: fc.array(
    fc.tuple(fc.nat(20), fc.nat(20)).map(([x, y]) => inkSpot(x, y)),
    { minLength: 1, maxLength: 5 },
  ),
});

/** Two people draw; now and then what one did reaches the other. */
const step = fc.record({
  who: fc.nat(1),
  command: fc.oneof({ weight: 5, arbitrary: command }, { weight: 1, arbitrary: stroke }),
  meets: fc.boolean(),
});

type Session = {
  readonly updates: readonly BoardUpdate[];
  /** The board after each entry, as it was live. */
  readonly live: readonly string[];
  readonly wholes: readonly Uint8Array[];
  readonly length: number;
};

const stateOf = (doc: Y.Doc): string => JSON.stringify([readBoard(doc), readInk(doc)]);

/** What a room's history has after the steps; between two changes there may be entries of other kinds. */
function sessionOf(steps: readonly { who: number; command: Command; meets: boolean }[]): Session {
  const people = [new Y.Doc(), new Y.Doc()];
  const room = new Y.Doc();
  const updates: BoardUpdate[] = [];
  const live: string[] = [stateOf(room)];
  const wholes: Uint8Array[] = [Y.encodeStateAsUpdate(room)];
  const note = () => {
    live.push(stateOf(room));
    wholes.push(Y.encodeStateAsUpdate(room));
  };
  room.on("update", (update: Uint8Array) => {
    updates.push({ sequence: live.length, update });
    note();
  });
  for (const { who, command: done, meets } of steps) {
    const own = people[who] as Y.Doc;
    applyCommand(own, done, LOCAL);
    Y.applyUpdate(room, Y.encodeStateAsUpdate(own, Y.encodeStateVector(room)));
    if (meets) for (const each of people) Y.applyUpdate(each, Y.encodeStateAsUpdate(room, Y.encodeStateVector(each)));
    // An entry that is no change of the board.
    if (meets) note();
  }
  return { updates, live, wholes, length: live.length - 1 };
}

describe("a board that is put to a moment of its history", () => {
  it("is what it was live, at every entry and in whatever order the moments are gone to", () => {
    fc.assert(
      fc.property(
        fc.array(step, { minLength: 1, maxLength: 40 }),
        fc.array(fc.nat(200), { maxLength: 30 }),
        fc.array(fc.nat(200), { maxLength: 4 }),
        (steps, jumps, stored) => {
          const { updates, live, wholes, length } = sessionOf(steps);
          const replay = new BoardReplay();
          replay.addUpdates({ from: 1, to: length }, updates);
          for (const at of stored.map((any) => any % (length + 1))) replay.addBoard(at, wholes[at] as Uint8Array);
          const forth = live.map((_, at) => at);
          for (const at of [...forth, ...forth.toReversed(), ...jumps.map((any) => any % (length + 1))]) {
            expect(stateOf(replay.goTo(at))).toBe(live[at]);
          }
        },
      ),
      { numRuns: 60 },
    );
  });

  it("keeps itself whole on its way, and goes back to there", () => {
    const steps = Array.from({ length: 1500 }, (_, index) => ({
      who: 0,
      command: { do: "setValue", id: entryId("R1"), value: `${index} Ω` } as const,
      meets: false,
    }));
    const { updates, live, length } = sessionOf([
      { who: 0, command: R("R1", "1k", [0, 0], [4, 0]), meets: true },
      ...steps,
    ]);
    const replay = new BoardReplay();
    replay.addUpdates({ from: 1, to: length }, updates);
    for (const at of [length, 700, 1200, 1199, 3, length]) expect(stateOf(replay.goTo(at))).toBe(live[at]);
  });

  it("says which entries are missing, from the nearest whole board or from where it stands", () => {
    const { updates, live, wholes, length } = sessionOf(
      ["1k", "2k", "3k", "4k", "5k", "6k", "7k", "8k"].map((value) => ({
        who: 0,
        command: R("R1", value, [0, 0], [4, 0]),
        meets: false,
      })),
    );
    expect(length).toBe(8);
    const between = (from: number, to: number) =>
      [{ from, to }, updates.filter(({ sequence }) => sequence >= from && sequence <= to)] as const;
    const replay = new BoardReplay();
    expect(replay.missing(0)).toBeNull();
    expect(replay.missing(8)).toEqual({ from: 1, to: 8 });
    replay.addUpdates(...between(5, 6));
    expect(replay.missing(8)).toEqual({ from: 1, to: 4 });
    expect(() => replay.goTo(6)).toThrow("entries 1 to 4 are missing before 6");
    replay.addBoard(4, wholes[4] as Uint8Array);
    expect(replay.missing(6)).toBeNull();
    expect(stateOf(replay.goTo(6))).toBe(live[6]);
    expect(replay.missing(8)).toEqual({ from: 7, to: 8 });
    replay.addUpdates(...between(5, 8));
    replay.addUpdates(...between(1, 4));
    for (const at of [8, 2, 5]) expect(stateOf(replay.goTo(at))).toBe(live[at]);
  });

  it("passes over a change that can't be read, as a room does that is loaded", () => {
    const { updates, live } = sessionOf([{ who: 0, command: R("R1", "1k", [0, 0], [4, 0]), meets: false }]);
    const replay = new BoardReplay();
    replay.addUpdates({ from: 1, to: 3 }, [
      { sequence: 1, update: Uint8Array.of(9, 9, 9) },
      ...updates.map(({ update }) => ({ sequence: 2, update })),
    ]);
    expect(stateOf(replay.goTo(3))).toBe(live.at(-1));
  });
});
