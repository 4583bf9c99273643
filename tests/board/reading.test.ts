import fc from "fast-check";
import { describe, expect, it } from "vitest";
import * as Y from "yjs";
import { circuitOf, readBoard } from "../../shared/board";
import { drawn, exchange, id, R, TWO_SOURCES, wantCurrent } from "./builders";

const MAPS = ["parts", "wires", "references", "nodeNames", "wanted"] as const;
const FIELDS = "kind name value from to reversed at turn flip state points part direction winding controlPart".split(
  " ",
);

const junk = fc.oneof(
  fc.string(),
  fc.integer(),
  fc.boolean(),
  fc.constantFrom(
    "resistor",
    "vcvs",
    "ideal-opamp",
    "0,0",
    "4,0",
    "0,0 4,0",
    "current",
    "voltage",
    "thevenin",
    "forward",
  ),
  fc.constant(null),
  fc.array(fc.integer()),
);
const fields = fc.dictionary(fc.constantFrom(...FIELDS), junk);
const entry = fc.oneof(
  { weight: 5, arbitrary: fields.map((of) => ({ nested: true as const, of })) },
  { weight: 1, arbitrary: junk.map((of) => ({ nested: false as const, of })) },
);

describe("a document that holds anything at all", () => {
  it("is read without a throw, and as a circuit too", () =>
    fc.assert(
      fc.property(fc.array(fc.tuple(fc.constantFrom(...MAPS), fc.string(), entry)), (entries) => {
        const doc = new Y.Doc();
        for (const [map, key, { nested, of }] of entries) {
          doc.getMap(map).set(key, nested ? new Y.Map(Object.entries(of as Record<string, unknown>)) : of);
        }
        const board = readBoard(doc);
        const written = MAPS.reduce((count, map) => count + doc.getMap(map).size, 0);
        const read = [board.parts, board.wires, board.references, board.nodeNames, board.wanted].flat().length;
        expect(read + board.problems.length).toBe(written);
        circuitOf(board);
      }),
      { numRuns: 300 },
    ));

  it("names the map and the field of what it leaves out", () => {
    const doc = drawn(...TWO_SOURCES);
    doc.getMap("parts").set(
      "bad",
      new Y.Map([
        ["kind", "resistor"],
        ["from", "0,0"],
        ["to", "3,3"],
      ]),
    );
    const { problems, parts } = readBoard(doc);
    expect(problems).toEqual([{ code: "malformedEntry", map: "part", entry: "bad", field: "from, to" }]);
    expect(parts).toHaveLength(4);
  });

  it("drops a wanted quantity whose part another person has deleted, and says so", () => {
    const [a, b] = [drawn(...TWO_SOURCES), new Y.Doc()];
    exchange(a, b);
    a.getMap("parts").delete("R3");
    Y.applyUpdate(b, Y.encodeStateAsUpdate(drawn(wantCurrent("Ix", "R3"))));
    exchange(a, b);
    expect(readBoard(a).wanted).toEqual([]);
    expect(readBoard(a).problems).toEqual([{ code: "danglingWanted", entry: "wanted-Ix", name: "Ix" }]);
  });
});

describe("names", () => {
  const unnamed = (entry: string, y: number) => {
    const command = R("", "1k", [0, y], [4, y]);
    return command.do === "placePart" ? { ...command, id: id(entry), part: { ...command.part, name: null } } : command;
  };
  const namesOf = (doc: Y.Doc) => readBoard(doc).parts.map((part) => [part.id, part.name]);

  it("are the next free number of the kind", () =>
    expect(namesOf(drawn(unnamed("p", 0), R("R2", "1k", [0, 2], [4, 2]), unnamed("q", 4)))).toEqual([
      ["R2", "R2"],
      ["p", "R1"],
      ["q", "R3"],
    ]));

  it("given twice at once stay with the lower id; the later id takes the next free number", () => {
    const [a, b] = [drawn(unnamed("a", 0)), drawn(unnamed("b", 2), unnamed("c", 4))];
    exchange(a, b);
    expect(namesOf(a)).toEqual([
      ["a", "R1"],
      ["b", "R3"],
      ["c", "R2"],
    ]);
    expect(namesOf(b)).toEqual(namesOf(a));
  });
});
