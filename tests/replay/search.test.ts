import { describe, expect, it } from "vitest";
import type { BoardEdit } from "../../shared/board";
import { SearchIndex } from "../../shared/replay";

const edit = (did: BoardEdit["did"], name: string, text: string, entry = name): BoardEdit => ({
  did,
  map: "part",
  entry,
  name,
  text,
});
const at = (sequence: number, participant: number, time = sequence * 10_000) => ({ sequence, participant, time });
const anybody = { participant: null, about: null };

function session(): SearchIndex {
  const index = new SearchIndex();
  index.addEdits(at(1, 1), [edit("placed", "R1", "")]);
  index.addEdits(at(2, 1, 10_500), [edit("changed", "R1", "4.7k")]);
  index.addEdits(at(3, 2), [edit("placed", "V1", "12 V")]);
  index.addEdits(at(4, 2), [edit("changed", "R1", "5k")]);
  index.addEdits(at(5, 1), [edit("removed", "R1", "5k")]);
  index.add({ ...at(6, 2), about: "try", words: "Iy V1 -2 mA The sign is turned" });
  return index;
}

const found = (words: string, rest: object = {}) =>
  session()
    .find({ ...anybody, words, ...rest }, 100)
    .map(({ sequence }) => sequence);

describe("what was done in a room", () => {
  it("is found by the name of a part, its value, and the words of a try, in whatever case", () => {
    expect(found("r1")).toEqual([1, 4, 5]);
    expect(found("12 v")).toEqual([3]);
    expect(found("SIGN turned")).toEqual([6]);
  });

  it("is found only where every word is in it", () => expect(found("R1 12")).toEqual([]));

  it("is found by who did it, and by whether it was an edit or a try", () => {
    expect(found("", { participant: 2 })).toEqual([3, 4, 6]);
    expect(found("V1", { about: "edit" })).toEqual([3]);
  });

  it("is one thing where somebody places a part and gives it its value at once", () => {
    const [first] = session().find({ ...anybody, words: "R1" }, 1);
    expect([first?.sequence, first?.edit?.did, first?.edit?.text]).toEqual([1, "placed", "4.7k"]);
  });

  it("is nothing for an empty query, and at most as many as are asked for", () => {
    expect(found("  ")).toEqual([]);
    expect(session().find({ ...anybody, words: "R1" }, 2).length).toBe(2);
  });
});
