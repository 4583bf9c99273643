import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Command } from "../../../shared/board";
import { SessionLog } from "../../../src/replay/sessionLog";
import { at, id, R, V } from "../../board/builders";
import { type Happening, record, serve } from "./recorded";

const command: fc.Arbitrary<Command> = fc.oneof(
  fc.tuple(fc.nat(6), fc.nat(9), fc.nat(9)).map(([n, x, y]) => R(`R${n}`, `${x + 1}k`, [x, y], [x + 4, y])),
  fc.nat(6).map((n) => V(`V${n}`, `${n + 1} V`, [n, 0], [n, 4])),
  fc.nat(6).map((n): Command => ({ do: "setValue", id: id(`R${n}`), value: `${n + 2}k` })),
  fc.nat(6).map((n): Command => ({ do: "delete", ids: [id(`R${n}`)] })),
  fc.nat(6).map((n): Command => ({ do: "move", ids: [id(`R${n}`)], by: at(1, 0) })),
  fc.nat(9).map(
    (n): Command => ({
      do: "placeStroke",
      id: id(`s${n}`),
      kind: "pen",
      colour: "ink",
      card: [],
      spots: [at(n, 0), at(n, 3)],
    }),
  ),
);
const happening: fc.Arbitrary<Happening> = fc.oneof(
  { weight: 4, arbitrary: fc.record({ after: fc.nat(4000), participant: fc.integer({ min: 1, max: 3 }), command }) },
  {
    weight: 1,
    arbitrary: fc.record({
      after: fc.nat(4000),
      participant: fc.integer({ min: 1, max: 3 }),
      command,
      seen: fc.nat(40),
    }),
  },
  fc.record({
    after: fc.nat(4000),
    participant: fc.integer({ min: 1, max: 3 }),
    kind: fc.constantFrom("join", "leave", "something new"),
  }),
  fc.record({
    after: fc.nat(4000),
    participant: fc.integer({ min: 1, max: 3 }),
    kind: fc.constant("look"),
    json: fc.record({ card: fc.constantFrom("V1", "total"), wanted: fc.constant(null) }),
  }),
);
const session = fc.array(happening, { minLength: 1, maxLength: 60 });
/** Where somebody who looks at the session goes, one after another, as shares of its length. */
const visits = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 1, maxLength: 12 });

describe("a session that is fetched as it is needed", () => {
  it("shows the room at any moment as it was, forward and back, whatever of it was fetched before", () =>
    fc.assert(
      fc.asyncProperty(
        session,
        visits,
        fc.integer({ min: 1, max: 30 }),
        fc.integer({ min: 1, max: 20 }),
        async (happenings, shares, spacing, most) => {
          const recorded = record(happenings);
          const log = new SessionLog(serve(recorded, spacing, most).source);
          for (const share of shares) {
            const sequence = Math.round(share * recorded.entries.length);
            expect(await log.load(sequence)).toBeNull();
            expect(log.isLoaded(sequence)).toBe(true);
            const { board, ink, moment } = log.goTo(sequence);
            expect({ board, ink, moment }).toEqual(recorded.live[sequence]);
          }
          log.close();
        },
      ),
      { numRuns: 60 },
    ));

  it("is fetched from the stored board nearest before a far moment on, and not from its beginning", async () => {
    const many = Array.from(
      { length: 700 },
      (_, n): Happening => ({
        after: 100,
        participant: 1,
        command: R(`R${n % 50}`, `${n + 1}k`, [n % 20, 0], [(n % 20) + 4, 0]),
      }),
    );
    const recorded = record(many);
    const { source, asked } = serve(recorded, 200, 300);
    const log = new SessionLog(source);
    await log.load(630);
    expect(asked).toEqual(["board 630", "entries 601 630"]);
    expect(log.goTo(630).board).toEqual(recorded.live[630]?.board);
  });

  it("fetches the whole stored board where somebody had not seen what is gone from the thin one, and only then", async () => {
    const changed = (n: number, seen?: number): Happening => ({
      after: 100,
      participant: 1,
      command: { do: "setValue", id: id("R1"), value: `${n}k` },
      ...(seen !== undefined && { seen }),
    });
    const recorded = record([
      { after: 0, participant: 1, command: R("R1", "1k", [0, 0], [4, 0]) },
      ...Array.from({ length: 1050 }, (_, n) => (n === 1020 ? changed(5000, 3) : changed(n + 2))),
    ]);
    const { source, asked } = serve(recorded, 500, 300);
    const log = new SessionLog(source);
    await log.load(1010);
    expect(log.goTo(1010).board).toEqual(recorded.live[1010]?.board);
    expect(asked.splice(0)).toEqual(["board 1010", "entries 1001 1010"]);
    // The entry of the change 1020 is 1022.
    await log.load(1040);
    expect(log.goTo(1040).board).toEqual(recorded.live[1040]?.board);
    expect(asked.splice(0)).toEqual(["entries 1011 1040", "board 1040 unfit 1000"]);
    await log.load(900);
    expect(log.goTo(900).board).toEqual(recorded.live[900]?.board);
    expect(asked).toEqual(["board 900", "entries 501 900", "entries 801 900"]);
  });

  it("fetches nothing again that it has", async () => {
    const recorded = record(
      Array.from(
        { length: 30 },
        (_, n): Happening => ({
          after: 10,
          participant: 1,
          command: R(`R${n}`, "1k", [n, 0], [n, 4]),
        }),
      ),
    );
    const { source, asked } = serve(recorded, 10, 100);
    const log = new SessionLog(source);
    await log.load(20);
    log.goTo(20);
    await log.load(5);
    await log.load(20);
    await log.loadEntries(1, 20);
    expect(asked).toEqual(["entries 1 20"]);
  });

  it("says why a part of it is not there, and can be asked again", async () => {
    const recorded = record([{ after: 0, participant: 1, command: R("R1", "1k", [0, 0], [4, 0]) }]);
    const { source } = serve(recorded, 10, 10);
    let isDown = true;
    const refusal = { code: "unreachable", text: "The server cannot be reached." } as const;
    const log = new SessionLog({
      ...source,
      entries: async (from, to) => (isDown ? { ok: false, refusal } : source.entries(from, to)),
    });
    expect(await log.load(1)).toEqual(refusal);
    expect(log.isLoaded(1)).toBe(false);
    isDown = false;
    expect(await log.load(1)).toBeNull();
    expect(log.goTo(1).board.parts.length).toBe(1);
  });
});
