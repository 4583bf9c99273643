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
  ownHistory,
  readBoard,
  readInk,
  thinBoard,
  writeThinBoard,
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

type Step = {
  readonly who: number;
  /** Undo and redo are of one's own work, as far back as the first letter. */
  readonly act: Command | "undo" | "redo";
  readonly meets: boolean;
};

/** Two people draw; now and then what one did reaches the other. */
const step: fc.Arbitrary<Step> = fc.record({
  who: fc.nat(1),
  act: fc.oneof(
    { weight: 5, arbitrary: command },
    { weight: 2, arbitrary: stroke },
    fc.record({
      do: fc.constant("eraseInk" as const),
      ids: fc.constantFrom("i1", "i2", "i3").map((id) => [entryId(id)]),
    }),
    fc.constantFrom("undo" as const, "redo" as const),
  ),
  meets: fc.boolean(),
});

type Session = {
  readonly updates: readonly BoardUpdate[];
  /** The board after each entry, as it was live. */
  readonly live: readonly string[];
  readonly wholes: readonly Uint8Array[];
  readonly thins: readonly Uint8Array[];
  readonly length: number;
};

const stateOf = (doc: Y.Doc): string => JSON.stringify([readBoard(doc), readInk(doc)]);

/** What a room's history has after the steps; between two changes there may be entries of other kinds. */
function sessionOf(steps: readonly Step[]): Session {
  const people = [new Y.Doc(), new Y.Doc()];
  const histories = people.map(ownHistory);
  const room = new Y.Doc();
  const updates: BoardUpdate[] = [];
  const live: string[] = [stateOf(room)];
  const wholes: Uint8Array[] = [Y.encodeStateAsUpdate(room)];
  const thins: Uint8Array[] = [thinOf(room)];
  const note = () => {
    live.push(stateOf(room));
    wholes.push(Y.encodeStateAsUpdate(room));
    thins.push(thinOf(room));
  };
  room.on("update", (update: Uint8Array) => {
    updates.push({ sequence: live.length, update });
    note();
  });
  for (const { who, act, meets } of steps) {
    const own = people[who] as Y.Doc;
    if (typeof act === "string") histories[who]?.[act]();
    else applyCommand(own, act, LOCAL);
    Y.applyUpdate(room, Y.encodeStateAsUpdate(own, Y.encodeStateVector(room)));
    if (meets) for (const each of people) Y.applyUpdate(each, Y.encodeStateAsUpdate(room, Y.encodeStateVector(each)));
    // An entry that is no change of the board.
    if (meets) note();
  }
  return { updates, live, wholes, thins, length: live.length - 1 };
}

function thinOf(doc: Y.Doc): Uint8Array {
  const thin = thinBoard(doc);
  if (thin === null) throw new Error("a board of ours can't be thinned");
  return writeThinBoard(thin);
}

describe("a board that is put to a moment of its history", () => {
  it("is what it was live, at every entry and in whatever order the moments are gone to", () => {
    fc.assert(
      fc.property(
        fc.array(step, { minLength: 1, maxLength: 40 }),
        fc.array(fc.nat(200), { maxLength: 30 }),
        fc.array(fc.record({ any: fc.nat(200), isThin: fc.boolean() }), { maxLength: 6 }),
        (steps, jumps, stored) => {
          const { updates, live, wholes, thins, length } = sessionOf(steps);
          const replay = new BoardReplay();
          replay.addUpdates({ from: 1, to: length }, updates);
          for (const { any, isThin } of stored) {
            const at = any % (length + 1);
            replay.addBoard(at, (isThin ? thins : wholes)[at] as Uint8Array, isThin);
          }
          const forth = live.map((_, at) => at);
          for (const at of [...forth, ...forth.toReversed(), ...jumps.map((any) => any % (length + 1))]) {
            expect(stateOf(replay.goTo(at))).toBe(live[at]);
          }
        },
      ),
      { numRuns: 200 },
    );
  });

  it("keeps itself whole on its way, and goes back to there", () => {
    const steps = Array.from({ length: 1500 }, (_, index) => ({
      who: 0,
      act: { do: "setValue", id: entryId("R1"), value: `${index} Ω` } as const,
      meets: false,
    }));
    const { updates, live, length } = sessionOf([
      { who: 0, act: R("R1", "1k", [0, 0], [4, 0]), meets: true },
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
        act: R("R1", value, [0, 0], [4, 0]),
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
    const { updates, live } = sessionOf([{ who: 0, act: R("R1", "1k", [0, 0], [4, 0]), meets: false }]);
    const replay = new BoardReplay();
    replay.addUpdates({ from: 1, to: 3 }, [
      { sequence: 1, update: Uint8Array.of(9, 9, 9) },
      ...updates.map(({ update }) => ({ sequence: 2, update })),
    ]);
    expect(stateOf(replay.goTo(3))).toBe(live.at(-1));
  });

  it("goes on from a thin board, until a change refers to what is gone from it", () => {
    const { updates, live, wholes, thins, length } = sessionOf([
      { who: 0, act: R("R1", "1k", [0, 0], [4, 0]), meets: true },
      { who: 0, act: { do: "setValue", id: entryId("R1"), value: "2k" }, meets: false },
      { who: 0, act: { do: "setValue", id: entryId("R1"), value: "3k" }, meets: false },
      { who: 0, act: { do: "setValue", id: entryId("R1"), value: "4k" }, meets: false },
      // The other has seen none of these.
      { who: 1, act: { do: "setValue", id: entryId("R1"), value: "9k" }, meets: false },
      { who: 0, act: R("R2", "1k", [8, 0], [12, 0]), meets: false },
    ]);
    const replay = new BoardReplay();
    const from = (first: number) =>
      replay.addUpdates(
        { from: first, to: length },
        updates.filter(({ sequence }) => sequence >= first),
      );
    const [third, stale] = [updates[2]?.sequence ?? 0, updates[4]?.sequence ?? 0];
    replay.addBoard(third, thins[third] as Uint8Array, true);
    from(third + 1);
    expect([replay.missing(stale - 1), replay.unfitBefore(stale - 1)]).toEqual([null, null]);
    expect(stateOf(replay.goTo(stale - 1))).toBe(live[stale - 1]);
    expect(replay.missing(stale)).toEqual({ from: 1, to: third });
    expect([replay.unfitBefore(stale - 1), replay.unfitBefore(stale)]).toEqual([null, third]);
    expect(() => replay.goTo(stale)).toThrow(`entries 1 to ${third} are missing before ${stale}`);
    // The part before it still serves.
    expect(stateOf(replay.goTo(stale - 1))).toBe(live[stale - 1]);
    replay.addBoard(third, wholes[third] as Uint8Array);
    for (const at of [stale, length, stale - 1, third]) expect(stateOf(replay.goTo(at))).toBe(live[at]);
  });

  it("asks for the whole of a thin board that can't be read", () => {
    const { updates, live, wholes, thins, length } = sessionOf([
      { who: 0, act: R("R1", "1k", [0, 0], [4, 0]), meets: false },
      { who: 0, act: R("R2", "1k", [8, 0], [12, 0]), meets: false },
    ]);
    const replay = new BoardReplay();
    replay.addUpdates({ from: 2, to: length }, updates.slice(1));
    for (const broken of [thins[1]?.slice(0, -1), wholes[1], Uint8Array.of(1, 2, 9, 9, 0)]) {
      replay.addBoard(1, broken as Uint8Array, true);
      expect([replay.missing(2), replay.unfitBefore(2)]).toEqual([{ from: 1, to: 1 }, 1]);
    }
    replay.addBoard(1, wholes[1] as Uint8Array);
    expect(stateOf(replay.goTo(2))).toBe(live[2]);
  });
});
