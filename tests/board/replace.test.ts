import { describe, expect, it } from "vitest";
import * as Y from "yjs";
import { applyCommand, type Command, LOCAL, readBoard, readInk, replaceBoard } from "../../shared/board";
import { drawn, exchange, id, R, TWO_SOURCES, V, wantCurrent, wire } from "./builders";

const boardOf = (...commands: readonly Command[]) => readBoard(drawn(...commands));
const NOTE = { do: "placeNote", id: id("n"), colour: "ink", card: [], at: { x: 0, y: 0 }, text: "mine" } as const;

describe("a board that is put in the place of another", () => {
  it("is the whole of what the document holds then", () => {
    const doc = drawn(V("V9", "1 V", [0, 0], [0, 4]), wire("w9", [0, 0], [4, 0]), R("R1", "9", [0, 0], [4, 0]), NOTE);
    doc.getMap("parts").set("broken", 5);
    const board = boardOf(...TWO_SOURCES);
    replaceBoard(doc, board, LOCAL);
    expect(readBoard(doc)).toEqual(board);
    expect(readInk(doc).marks).toEqual([]);
  });

  it("comes in one transaction, and to whoever draws at the same time", () => {
    const [doc, other] = [drawn(R("R1", "9", [0, 0], [4, 0])), new Y.Doc()];
    exchange(doc, other);
    let transactions = 0;
    doc.on("afterTransaction", () => transactions++);
    replaceBoard(doc, boardOf(R("R1", "5", [0, 0], [4, 0]), wantCurrent("Ix", "R1")), LOCAL);
    expect(transactions).toBe(1);
    applyCommand(other, R("R2", "7", [8, 0], [8, 4]), LOCAL);
    exchange(doc, other);
    expect(readBoard(doc)).toEqual(readBoard(other));
    expect(readBoard(doc).parts.map((part) => [part.name, "value" in part && part.value])).toEqual([
      ["R1", "5"],
      ["R2", "7"],
    ]);
  });
});
