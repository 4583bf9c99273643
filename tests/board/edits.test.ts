import { expect, it } from "vitest";
import * as Y from "yjs";
import { applyCommand, type BoardEdit, type Command, EditReader, LOCAL } from "../../shared/board";
import { id, R, reference, wantCurrent } from "./builders";

/** What each of the commands did, as it is read off its update. */
function editsOf(...commands: readonly Command[]): readonly (readonly BoardEdit[])[] {
  const doc = new Y.Doc();
  const reader = new EditReader();
  const edits: (readonly BoardEdit[])[] = [];
  doc.on("update", (update: Uint8Array) => edits.push(reader.take(update)));
  for (const command of commands) applyCommand(doc, command, LOCAL);
  return edits;
}

const short = (edits: readonly BoardEdit[] | undefined) =>
  edits?.map(({ did, map, name, text }) => [did, map, name, text]);

it("a part that is placed, changed and removed is told with its name and its value, the removed one as it was", () => {
  const edits = editsOf(
    R("R1", "1k", [0, 0], [4, 0]),
    { do: "setValue", id: id("R1"), value: "2.2k" },
    { do: "rename", id: id("R1"), name: "Rload" },
    { do: "delete", ids: [id("R1")] },
  );
  expect(edits.map(short)).toEqual([
    [["placed", "part", "R1", "1k"]],
    [["changed", "part", "R1", "2.2k"]],
    [["changed", "part", "Rload", "2.2k"]],
    [["removed", "part", "Rload", "2.2k"]],
  ]);
});

it("a part that takes its wanted quantity with it is two edits of one change", () => {
  const edits = editsOf(R("R1", "1k", [0, 0], [4, 0]), wantCurrent("Iy", "R1"), { do: "delete", ids: [id("R1")] });
  expect(short(edits.at(-1))).toEqual([
    ["removed", "part", "R1", "1k"],
    ["removed", "wanted quantity", "Iy", ""],
  ]);
});

it("the page, notes and reference symbols are told as well", () => {
  const edits = editsOf(
    { do: "setPage", title: "Two sources", statement: "Find Iy." },
    { do: "placeNote", id: id("n1"), colour: "ink", card: [], at: { x: 1, y: 1 }, text: "look here" },
    reference("g1", 0, 0),
  );
  expect(edits.map(short)).toEqual([
    [
      ["changed", "page", "", "Two sources"],
      ["changed", "page", "", "Find Iy."],
    ],
    [["placed", "mark", "", "look here"]],
    [["placed", "reference", "", ""]],
  ]);
});

it("a change that can't be read, or does nothing to the board, is no edit", () => {
  const reader = new EditReader();
  expect(reader.take(Uint8Array.of(1, 2, 3))).toEqual([]);
  const doc = new Y.Doc();
  doc.getMap("elsewhere").set("a", 1);
  expect(reader.take(Y.encodeStateAsUpdate(doc))).toEqual([]);
});
