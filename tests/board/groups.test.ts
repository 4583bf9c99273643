import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type * as Y from "yjs";
import * as Yjs from "yjs";
import { solveBoard } from "../../server/solver/job";
import { applyCommand, type Command, circuitOf, LOCAL, readBoard } from "../../shared/board";
import { drawn, exchange, id, TWO_SOURCES, V, wantCurrent } from "./builders";

/** {@link TWO_SOURCES} with V2 (4 V) standing apart: three sources, so that two of them are a group. */
const THREE_SOURCES: readonly Command[] = [...TWO_SOURCES, V("V2", "4 V", [16, 0], [16, 4])];

const group = (name: string, ...sources: readonly string[]): Command => ({
  do: "addGroup",
  id: id(name),
  sources: sources.map(id),
});

const groupsOf = (doc: Y.Doc) => readBoard(doc).groups.map((each) => each.sources);

describe("a group of sources", () => {
  it("holds its sources in the board's order, whatever the order of choosing", () =>
    expect(groupsOf(drawn(...THREE_SOURCES, group("g", "V2", "I1")))).toEqual([["I1", "V2"]]));

  it("of the same sources as another stands once", () =>
    expect(groupsOf(drawn(...THREE_SOURCES, group("g", "V2", "I1"), group("h", "I1", "V2")))).toEqual([["I1", "V2"]]));

  it("of one source, of all, or of parts that are no sources does not stand", () =>
    expect(
      groupsOf(
        drawn(...THREE_SOURCES, group("one", "V1"), group("all", "V1", "I1", "V2"), group("odd", "V1", "R1", "nobody")),
      ),
    ).toEqual([]));

  it("falls away with a source of its two, without a problem, and is back with it", () => {
    const doc = drawn(...THREE_SOURCES, group("g", "V1", "I1"));
    applyCommand(doc, { do: "delete", ids: [id("I1")] }, LOCAL);
    expect([groupsOf(doc), readBoard(doc).problems]).toEqual([[], []]);
    applyCommand(doc, THREE_SOURCES[2] as Command, LOCAL);
    expect(groupsOf(doc)).toEqual([["I1", "V1"]]);
  });

  it("is taken away by its entry", () => {
    const doc = drawn(...THREE_SOURCES, group("g", "V1", "I1"));
    applyCommand(doc, { do: "removeGroup", id: id("g") }, LOCAL);
    expect(groupsOf(doc)).toEqual([]);
  });

  it("goes along when a whole board is put into another document", () => {
    const board = readBoard(drawn(...THREE_SOURCES, group("g", "V1", "I1")));
    expect(groupsOf(drawn({ do: "fill", board }))).toEqual([["I1", "V1"]]);
  });

  it("keeps its sources when one of them is renamed", () => {
    const doc = drawn(...THREE_SOURCES, group("g", "V1", "I1"));
    applyCommand(doc, { do: "rename", id: id("V1"), name: "Vs" }, LOCAL);
    expect(circuitOf(readBoard(doc)).groups).toEqual([["I1", "Vs"]]);
  });

  it("made twice at once by two people stands once on both boards", () => {
    const [a, b] = [drawn(...THREE_SOURCES), drawn()];
    exchange(a, b);
    applyCommand(a, group("mine", "V1", "I1"), LOCAL);
    applyCommand(b, group("theirs", "V1", "I1"), LOCAL);
    exchange(a, b);
    expect(groupsOf(a)).toEqual([["I1", "V1"]]);
    expect(groupsOf(b)).toEqual(groupsOf(a));
  });

  it("that cannot be read is left out and named", () => {
    const doc = drawn(...THREE_SOURCES);
    doc.getMap("groups").set("bad", new Yjs.Map([["sources", 7]]));
    expect(readBoard(doc).problems).toEqual([
      { code: "malformedEntry", entry: "bad", map: "group of sources", field: "sources" },
    ]);
  });

  it("beyond the twentieth is left out and told", () => {
    const sources = Array.from({ length: 22 }, (_, i) => V(`V${i + 1}`, "1 V", [0, 6 * i], [0, 6 * i + 4]));
    const pairs = Array.from({ length: 21 }, (_, i) => group(`g${i}`, `V${i + 1}`, `V${i + 2}`));
    const board = readBoard(drawn(...sources, ...pairs));
    expect(board.groups).toHaveLength(20);
    expect(board.problems).toMatchObject([{ code: "tooManyEntries", map: "group of sources", limit: 20 }]);
  });
});

const something = fc.oneof(fc.jsonValue(), fc.constantFrom("V1 I1", "I1  V2 nobody", "V1", "V1 I1 V2", "R1 V2 R1"));

it("a document that holds anything in the place of groups is read without a throw, and as sources that are there", () =>
  fc.assert(
    fc.property(fc.array(fc.tuple(fc.string(), something, fc.boolean())), (entries) => {
      const doc = drawn(...THREE_SOURCES);
      for (const [key, value, isNested] of entries) {
        doc.getMap("groups").set(key, isNested ? new Yjs.Map([["sources", value]]) : value);
      }
      const board = readBoard(doc);
      for (const { sources } of board.groups) {
        expect(sources.length).toBe(2);
        for (const source of sources) expect(["V1", "I1", "V2"]).toContain(source);
      }
    }),
  ));

describe("the solver's job", () => {
  // By hand: V2 stands apart and gives R3 nothing. V1 alone: 12 V/8 kΩ = 1.5 mA; I1 alone: 9 mA × 2/8 = 2.25 mA.
  it("solves each source alone, then each group", () => {
    const doc = drawn(
      ...THREE_SOURCES,
      V("V3", "1 V", [20, 0], [20, 4]),
      wantCurrent("Ix", "R3"),
      group("g", "V1", "I1"),
    );
    const { report } = solveBoard(Yjs.encodeStateAsUpdate(doc));
    expect(report?.wanted[0]?.addends.map(({ sources, value }) => [sources.join("+"), value.text])).toEqual([
      ["I1", "2.25 mA"],
      ["V1", "1.5 mA"],
      ["V2", "0 A"],
      ["V3", "0 A"],
      ["I1+V1", "3.75 mA"],
    ]);
    expect(report?.wanted[0]?.total?.text).toBe("3.75 mA");
    expect(report?.partials.map((partial) => partial.sources.join("+"))).toContain("I1+V1");
  });
});
