import fc from "fast-check";
import { describe, expect, it } from "vitest";
import * as Y from "yjs";
import {
  applyCommand,
  boardProblemText,
  type InkCommand,
  type InkMark,
  isSeenOn,
  LOCAL,
  observeBoard,
  observeInk,
  ownHistory,
  readBoard,
  readInk,
} from "../../shared/board";
import { drawn, exchange, id, TWO_SOURCES } from "./builders";

const stroke = (name: string, ...spots: readonly (readonly [number, number])[]): InkCommand => ({
  do: "placeStroke",
  id: id(name),
  kind: "pen",
  colour: "brown",
  card: [],
  spots: spots.map(([x, y]) => ({ x, y })),
});
const note = (name: string, text: string): InkCommand => ({
  do: "placeNote",
  id: id(name),
  colour: "violet",
  card: [],
  at: { x: 2, y: 3.25 },
  text,
});
const arrow = (name: string): InkCommand => ({
  do: "placeArrow",
  id: id(name),
  colour: "moss",
  card: [id("V1")],
  from: { x: 0, y: 0 },
  to: { x: 4, y: -2.5 },
});
/** An entry as a client of anybody's making could write it. */
function written(fields: Readonly<Record<string, unknown>>): Y.Doc {
  const doc = new Y.Doc();
  doc.getMap("ink").set("m", new Y.Map(Object.entries(fields)));
  return doc;
}

describe("marks", () => {
  it("come back as they were made, in the order of their ids, spots to the hundredth of a grid step", () =>
    expect(readInk(drawn(note("c", "$R_1$ first"), arrow("b"), stroke("a", [1, 1], [1.234, -2.019])))).toEqual({
      marks: [
        { id: "a", kind: "pen", colour: "brown", card: [], spots: [1, 1, 1.23, -2.02].flatMap(pairs) },
        { id: "b", kind: "arrow", colour: "moss", card: ["V1"], from: { x: 0, y: 0 }, to: { x: 4, y: -2.5 } },
        { id: "c", kind: "note", colour: "violet", card: [], at: { x: 2, y: 3.25 }, text: "$R_1$ first" },
      ],
      problems: [],
    }));

  it("are kept as text, a stroke's spots each as the way from the one before", () => {
    const doc = drawn(stroke("a", [1.2, -3.4], [1.25, -3.43], [1.29, -3.43]));
    expect((doc.getMap("ink").get("a") as Y.Map<unknown>).get("spots")).toBe("120,-340 5,-3 4,0");
  });

  it("are moved, a note edited, and erased; a command about a mark that is gone does nothing", () => {
    const doc = drawn(stroke("a", [0, 0], [1, 0]), note("b", "first"), stroke("c", [0, 0]));
    const commands: readonly InkCommand[] = [
      { do: "moveInk", ids: [id("a"), id("b")], by: { x: 1, y: 0.5 } },
      { do: "moveInk", ids: [id("a"), id("gone")], by: { x: 1, y: 0.5 } },
      { do: "editNote", id: id("b"), text: "second" },
      { do: "editNote", id: id("gone"), text: "second" },
      { do: "eraseInk", ids: [id("c"), id("gone")] },
    ];
    for (const command of commands) applyCommand(doc, command, LOCAL);
    expect(readInk(doc).marks).toEqual([
      { id: "a", kind: "pen", colour: "brown", card: [], spots: [2, 1, 3, 1].flatMap(pairs) },
      { id: "b", kind: "note", colour: "violet", card: [], at: { x: 3, y: 3.75 }, text: "second" },
    ]);
  });

  it("moved by one person and edited by another at the same time are both", () => {
    const [a, b] = [drawn(note("n", "first")), new Y.Doc()];
    exchange(a, b);
    applyCommand(a, { do: "moveInk", ids: [id("n")], by: { x: 1, y: 1 } }, LOCAL);
    applyCommand(b, { do: "editNote", id: id("n"), text: "second" }, LOCAL);
    exchange(a, b);
    expect(readInk(a).marks).toMatchObject([{ at: { x: 3, y: 4.25 }, text: "second" }]);
    expect(readInk(b)).toEqual(readInk(a));
  });

  it("of an addend are seen on that addend alone, others on every card", () => {
    const mark = (card: readonly string[]) => ({ ...readInk(drawn(stroke("a", [0, 0]))).marks[0], card }) as InkMark;
    const [V1, I1] = [id("V1"), id("I1")];
    expect([null, [V1], [I1, V1]].map((open) => isSeenOn(mark([]), open))).toEqual([true, true, true]);
    expect([null, [V1], [I1, V1]].map((open) => isSeenOn(mark(["V1"]), open))).toEqual([false, true, false]);
    expect([null, [V1], [I1, V1]].map((open) => isSeenOn(mark(["V1", "I1"]), open))).toEqual([false, false, true]);
  });

  it("are taken back by undo where they are one's own, and are no part of the board", () => {
    const doc = drawn(...TWO_SOURCES);
    const before = readBoard(doc);
    const history = ownHistory(doc);
    let boards = 0;
    const stop = observeBoard(doc, () => {
      boards += 1;
    });
    applyCommand(doc, stroke("mine", [0, 0], [1, 1]), LOCAL);
    applyCommand(doc, stroke("theirs", [0, 0], [1, 1]), { source: "remote", peer: "other" });
    history.undo();
    stop();
    expect(readInk(doc).marks.map((mark) => mark.id)).toEqual(["theirs"]);
    expect(readBoard(doc)).toEqual(before);
    expect(boards).toBe(0);
  });

  it("throw where a page asks for what nobody could read: a defect of ours", () => {
    expect(() => drawn(stroke("a"))).toThrow("got a stroke of 0 spots, expected 1 to 1500");
    expect(() => drawn(note("a", "  "))).toThrow("got a note that is blank or has more than 500 characters");
  });
});

function pairs(value: number, index: number, all: readonly number[]) {
  return index % 2 === 0 ? [{ x: value, y: all[index + 1] as number }] : [];
}

describe("ink that anybody could write", () => {
  const junk = fc.oneof(
    fc.string(),
    fc.integer(),
    fc.constantFrom("pen", "highlighter", "arrow", "note", "ink", "brown", "0,0", "0,0 1,1", "9999999,0", "a b", "  "),
    fc.constant(null),
    fc.boolean(),
    fc.array(fc.integer()),
  );
  const fields = fc.dictionary(fc.constantFrom("kind", "colour", "card", "spots", "moved", "text"), junk);
  const entry = fc.oneof(
    { weight: 5, arbitrary: fields.map((of) => new Y.Map(Object.entries(of))) },
    { weight: 1, arbitrary: junk },
  );

  it("is read without a throw, each entry as a mark or as a problem", () =>
    fc.assert(
      fc.property(fc.dictionary(fc.string({ minLength: 1 }), entry), (entries) => {
        const doc = new Y.Doc();
        for (const [key, value] of Object.entries(entries)) doc.getMap("ink").set(key, value);
        const { marks, problems } = readInk(doc);
        expect(marks.length + problems.length).toBe(doc.getMap("ink").size);
        for (const problem of problems) boardProblemText(problem);
      }),
      { numRuns: 500 },
    ));

  const pen = { kind: "pen", colour: "ink", spots: "0,0 10,10" };
  it.each([
    ["kind", { ...pen, kind: "crayon" }],
    ["colour", { ...pen, colour: "#ff0000" }],
    ["spots", { ...pen, spots: "0,0 x,1" }],
    ["spots", { ...pen, spots: "" }],
    ["spots", { ...pen, spots: "1000000,0 100,0" }],
    ["spots", { ...pen, spots: Array.from({ length: 1501 }, () => "1,1").join(" ") }],
    ["moved", { ...pen, moved: "999999,0" }],
    ["card", { ...pen, card: 7 }],
    ["spots", { ...pen, kind: "arrow", spots: "0,0" }],
    ["spots", { ...pen, kind: "arrow", spots: "5,5 0,0" }],
    ["text", { ...pen, kind: "note", spots: "0,0" }],
    ["text", { ...pen, kind: "note", spots: "0,0", text: "x".repeat(501) }],
  ])("is left out and named by its field: %s of %j", (field, of) =>
    expect(readInk(written(of))).toEqual({
      marks: [],
      problems: [{ code: "malformedEntry", entry: "m", map: "mark", field }],
    }),
  );

  it("is bounded for a board: marks beyond 3000 are left out, and said to be", () => {
    const doc = new Y.Doc();
    doc.transact(() => {
      for (let i = 0; i < 3002; i += 1) doc.getMap("ink").set(`m${i}`, new Y.Map(Object.entries(pen)));
    });
    const { marks, problems } = readInk(doc);
    expect(marks).toHaveLength(3000);
    expect(problems.map(boardProblemText)).toEqual([
      "This board holds more ink than a page can show. The marks made last are left out; rub out some that are done with.",
    ]);
  });
});

describe("several people's ink", () => {
  const anyId = fc.constantFrom("a", "b", "c", "d").map(id);
  const spot = fc.record({
    x: fc.double({ min: -9, max: 9, noNaN: true }),
    y: fc.double({ min: -9, max: 9, noNaN: true }),
  });
  const command: fc.Arbitrary<InkCommand> = fc.oneof(
    fc.record({
      do: fc.constant("placeStroke" as const),
      id: anyId,
      kind: fc.constantFrom("pen" as const, "highlighter" as const),
      colour: fc.constantFrom("ink" as const, "sea" as const),
      card: fc.subarray([id("V1"), id("I1")]),
      spots: fc.array(spot, { minLength: 1, maxLength: 5 }),
    }),
    fc.record({
      do: fc.constant("placeNote" as const),
      id: anyId,
      colour: fc.constant("brick" as const),
      card: fc.constant([]),
      at: spot,
      text: fc.constantFrom("one", "$x$"),
    }),
    fc.record({ do: fc.constant("editNote" as const), id: anyId, text: fc.constantFrom("two", "three") }),
    fc.record({ do: fc.constant("moveInk" as const), ids: fc.array(anyId, { maxLength: 2 }), by: spot }),
    fc.record({ do: fc.constant("eraseInk" as const), ids: fc.array(anyId, { maxLength: 1 }) }),
  );
  const step = fc.oneof(
    { weight: 4, arbitrary: fc.record({ client: fc.integer({ min: 0, max: 2 }), command }) },
    { weight: 1, arbitrary: fc.record({ meet: fc.constantFrom([0, 1], [1, 2], [0, 1, 2]) }) },
  );

  it("converges, and whoever follows the changes has what whoever reads it whole has", () =>
    fc.assert(
      fc.property(fc.array(step, { maxLength: 40 }), (steps) => {
        const docs = [1, 2, 3].map((clientID) => Object.assign(new Y.Doc(), { clientID }));
        const followed = docs.map((doc) => readInk(doc));
        docs.forEach((doc, i) => {
          observeInk(doc, (ink) => {
            followed[i] = ink;
          });
        });
        for (const each of steps) {
          if ("meet" in each) exchange(...each.meet.map((i) => docs[i] as Y.Doc));
          else applyCommand(docs[each.client] as Y.Doc, each.command, LOCAL);
        }
        exchange(...docs);
        for (const [i, doc] of docs.entries()) {
          expect(readInk(doc)).toEqual(readInk(docs[0] as Y.Doc));
          expect(followed[i]).toEqual(readInk(doc));
        }
      }),
      { numRuns: 200 },
    ));

  it("leaves marks that have not changed the same objects, so that their drawing can be kept", () => {
    const doc = drawn(stroke("a", [0, 0], [1, 1]), stroke("b", [0, 0], [1, 1]));
    const seen: (readonly InkMark[])[] = [];
    const stop = observeInk(doc, (ink) => seen.push(ink.marks));
    applyCommand(doc, stroke("c", [5, 5]), LOCAL);
    applyCommand(doc, { do: "moveInk", ids: [id("a")], by: { x: 1, y: 0 } }, LOCAL);
    stop();
    expect(seen).toHaveLength(2);
    expect(seen[1]?.[0]).not.toBe(seen[0]?.[0]);
    expect(seen[1]?.[1]).toBe(seen[0]?.[1]);
    expect(seen[1]?.[2]).toBe(seen[0]?.[2]);
  });
});
