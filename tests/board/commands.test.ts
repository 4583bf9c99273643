import { describe, expect, it } from "vitest";
import * as Y from "yjs";
import { applyCommand, type Command, LOCAL, observeBoard, ownHistory, readBoard } from "../../shared/board";
import { at, drawn, exchange, id, R, TWO_SOURCES, wantCurrent } from "./builders";

const partOf = (doc: Y.Doc, name: string) => readBoard(doc).parts.find((part) => part.name === name);

/** Two documents that both hold the drawing, then each do one command out of reach of the other, then meet again. */
function atOnce(first: Command, second: Command): Y.Doc {
  const [a, b] = [drawn(...TWO_SOURCES), new Y.Doc()];
  exchange(a, b);
  applyCommand(a, first, LOCAL);
  applyCommand(b, second, LOCAL);
  exchange(a, b);
  expect(readBoard(a)).toEqual(readBoard(b));
  return a;
}

describe("at the same time", () => {
  it("a move and a new value both survive", () => {
    const doc = atOnce({ do: "move", ids: [id("R3")], by: at(2, 1) }, { do: "setValue", id: id("R3"), value: "4.7k" });
    expect(partOf(doc, "R3")).toMatchObject({ from: at(14, 1), to: at(14, 5), value: "4.7k" });
  });

  it("a move and a turning round both survive", () => {
    const doc = atOnce({ do: "move", ids: [id("V1")], by: at(0, 1) }, { do: "reverse", id: id("V1") });
    expect(partOf(doc, "V1")).toMatchObject({ from: at(0, 5), to: at(0, 1) });
  });

  it("a deletion wins over a new value", () => {
    const doc = atOnce({ do: "delete", ids: [id("R3")] }, { do: "setValue", id: id("R3"), value: "1" });
    expect(partOf(doc, "R3")).toBeUndefined();
    expect(readBoard(doc).problems).toEqual([]);
  });
});

it("does each command in one transaction that carries its origin", () => {
  const doc = drawn(...TWO_SOURCES);
  const origins: unknown[] = [];
  doc.on("afterTransaction", (transaction: Y.Transaction) => origins.push(transaction.origin));
  applyCommand(doc, { do: "move", ids: [id("R1"), id("top"), id("ground")], by: at(1, 0) }, LOCAL);
  applyCommand(doc, { do: "all", commands: [R("R9", "1", [0, 9], [4, 9]), wantCurrent("I", "R9")] }, LOCAL);
  expect(origins).toEqual([LOCAL, LOCAL]);
});

it("moves every bend of a wire", () => {
  const doc = drawn({ do: "placeWire", id: id("w"), points: [at(0, 0), at(4, 0), at(4, 3)] });
  applyCommand(doc, { do: "move", ids: [id("w")], by: at(-1, 2) }, LOCAL);
  expect(readBoard(doc).wires).toMatchObject([{ points: [at(-1, 2), at(3, 2), at(3, 5)] }]);
});

it("takes the wanted quantities of a deleted part along", () => {
  const doc = drawn(...TWO_SOURCES, wantCurrent("Ix", "R3"), wantCurrent("Iy", "R1"));
  applyCommand(doc, { do: "delete", ids: [id("R3")] }, LOCAL);
  expect(readBoard(doc).wanted.map((wanted) => wanted.name)).toEqual(["Iy"]);
});

it("does nothing to an entry that is gone", () => {
  const doc = drawn(...TWO_SOURCES);
  const before = readBoard(doc);
  applyCommand(doc, { do: "setValue", id: id("nobody"), value: "1" }, LOCAL);
  applyCommand(doc, { do: "reverse", id: id("nobody") }, LOCAL);
  expect(readBoard(doc)).toEqual(before);
});

it("tells an observer of the new board until it is undone", () => {
  const doc = drawn();
  const seen: number[] = [];
  const stop = observeBoard(doc, (board) => seen.push(board.parts.length));
  applyCommand(doc, R("R1", "1k", [0, 0], [4, 0]), LOCAL);
  stop();
  applyCommand(doc, R("R2", "1k", [0, 2], [4, 2]), LOCAL);
  expect(seen).toEqual([1]);
});

describe("undo", () => {
  it("takes back one's own last command and leaves what others did", () => {
    const [mine, theirs] = [new Y.Doc(), new Y.Doc()];
    const history = ownHistory(mine);
    applyCommand(mine, R("R1", "1k", [0, 0], [4, 0]), LOCAL);
    applyCommand(mine, { do: "setValue", id: id("R1"), value: "2k" }, LOCAL);
    applyCommand(theirs, R("R7", "1k", [0, 2], [4, 2]), LOCAL);
    Y.applyUpdate(mine, Y.encodeStateAsUpdate(theirs), { source: "remote", peer: "theirs" });
    history.undo();
    expect(readBoard(mine).parts).toMatchObject([{ name: "R1", value: "1k" }, { name: "R7" }]);
    history.undo();
    expect(readBoard(mine).parts).toMatchObject([{ name: "R7" }]);
    expect([history.canUndo(), history.canRedo()]).toEqual([false, true]);
    history.redo();
    expect(readBoard(mine).parts).toMatchObject([{ name: "R1", value: "1k" }, { name: "R7" }]);
  });
});
