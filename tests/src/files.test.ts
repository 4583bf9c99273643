import { describe, expect, it } from "vitest";
import { applyCommand, circuitOf, LOCAL, ownHistory, readBoard } from "../../shared/board";
import { addingBeside, readCircuit, replacing, writtenCircuit } from "../../src/file/circuitFiles";
import { fileName } from "../../src/file/download";
import { coversSome } from "../../src/file/fonts";
import { drawn, id, R, reference, TWO_SOURCES, V, wantCurrent } from "../board/builders";
import { reportOf } from "./builders";

const idMaker = () => {
  let count = 0;
  return () => {
    count += 1;
    return id(`new-${String(count).padStart(3, "0")}`);
  };
};
const names = (board: ReturnType<typeof readBoard>) => board.parts.map((part) => part.name);

describe("a circuit that is written and read again", () => {
  it("has the same answer", async () => {
    const board = readBoard(drawn(...TWO_SOURCES, wantCurrent("Ix", "R3")));
    const written = await writtenCircuit(board);
    expect(written.leftOut).toEqual([]);
    const read = await readCircuit(written.text);
    // V1 alone 12 V / 8 kΩ, I1 alone 9 mA × 2/8: 1.5 + 2.25 mA.
    expect(read.ok && reportOf(read.board).wanted[0]?.total?.text).toBe("3.75 mA");
  });

  it("has the same groups of sources, also once it has replaced a board or stands beside one", async () => {
    const group = { do: "addGroup", id: id("g"), sources: [id("V1"), id("I1")] } as const;
    const board = readBoard(drawn(...TWO_SOURCES, V("V2", "4 V", [16, 0], [16, 4]), group));
    const read = await readCircuit((await writtenCircuit(board)).text);
    if (!read.ok) throw new Error(read.faults.join());
    for (const [put, sources] of [
      [replacing, ["I1", "V1"]],
      [addingBeside, ["I2", "V2"]],
    ] as const) {
      const doc = drawn(...(put === replacing ? [R("R1", "1k", [0, 0], [4, 0])] : TWO_SOURCES));
      const before = readBoard(doc);
      applyCommand(
        doc,
        put(put === replacing ? before : { ...before, groups: [] }, read.board, idMaker()) as never,
        LOCAL,
      );
      expect(circuitOf(readBoard(doc)).groups.map((each) => [...each].sort())).toEqual([sources]);
    }
  });

  it("names what has no value as left out", async () => {
    const board = readBoard(drawn(R("R1", "", [0, 0], [4, 0]), R("R2", "1k", [4, 0], [8, 0])));
    expect((await writtenCircuit(board)).leftOut).toEqual(["R1"]);
  });
});

it("a text that is no circuit file gives a sentence", async () => {
  for (const text of ["", "{", "[]", '{"elements": 1}']) {
    const read = await readCircuit(text);
    expect(read.ok).toBe(false);
    if (!read.ok) for (const fault of read.faults) expect(fault).toMatch(/\.$/);
  }
});

describe("a circuit brought onto a board", () => {
  const other = readBoard(drawn(V("V1", "5 V", [0, 0], [0, 4]), R("R1", "1k", [0, 0], [0, 4]), reference("g", 0, 4)));

  it("in place of what is there leaves nothing of it, and one undo brings it back", () => {
    const doc = drawn(...TWO_SOURCES, wantCurrent("Ix", "R3"));
    const before = readBoard(doc);
    const history = ownHistory(doc);
    applyCommand(doc, replacing(before, other, idMaker()) as never, LOCAL);
    expect([names(readBoard(doc)), readBoard(doc).wanted]).toEqual([["R1", "V1"], []]);
    history.undo();
    expect(readBoard(doc)).toEqual(before);
  });

  it("beside what is there stands clear to its right, under names that are free", () => {
    const doc = drawn(...TWO_SOURCES);
    applyCommand(doc, addingBeside(readBoard(doc), other, idMaker()) as never, LOCAL);
    const board = readBoard(doc);
    expect(new Set(names(board)).size).toBe(6);
    const added = board.parts.filter((part) => part.id.startsWith("new-"));
    expect(added.map((part) => ("from" in part ? part.from.x : 0))).toEqual([18, 18]);
    expect(circuitOf(board).problems).toEqual([]);
  });

  it("does nothing where it would leave the grid", () => {
    const far = readBoard(drawn(R("R1", "1k", [9996, 0], [10000, 0])));
    expect(addingBeside(far, other, idMaker())).toBeNull();
  });
});

describe("a file's name", () => {
  it.each([
    ["A workshop board with three feeds, V1 alone", "A-workshop-board-with-three-feeds-V1-alone.svg"],
    ["Übung 3: Brücke", "Übung-3-Brücke.svg"],
    ["../../etc/passwd", "etc-passwd.svg"],
    ["???", "circuit.svg"],
  ])("of %j is %s", (title, name) => expect(fileName(title, "svg")).toBe(name));
});

describe("a range of characters", () => {
  it.each([
    ["U+0000-00FF, U+2212", "12 V", true],
    ["U+0000-00FF, U+2212", "−", true],
    ["U+0100-02BA", "12 V", false],
    ["U+03A?", "Ω", true],
    ["", "anything", true],
  ])("%j covers something of %j: %s", (range, text, covers) => expect(coversSome(range, text)).toBe(covers));
});
