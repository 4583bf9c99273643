import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  applyCommand,
  type Clip,
  type Command,
  circuitOf,
  clipOf,
  clipProblemText,
  cornerOf,
  type EntryId,
  entryId,
  LOCAL,
  pasting,
  readBoard,
  readClip,
  writeClip,
} from "../../shared/board";
import { exampleBoard } from "../src/builders";
import { at, drawn, id, TWO_SOURCES, V, wantCurrent } from "./builders";

const board = readBoard(drawn(...TWO_SOURCES, wantCurrent("Ix", "R3")));
const all = new Set([...board.parts, ...board.wires, ...board.references].map((entry) => entry.id));
const whole = clipOf(board, all);

function read(text: string): Clip {
  const reading = readClip(text);
  if (!reading.ok) throw new Error(clipProblemText(reading.problem));
  return reading.clip;
}

function problemOf(text: string): string {
  const reading = readClip(text);
  return reading.ok ? "" : clipProblemText(reading.problem);
}

function ids(): () => EntryId {
  let count = 0;
  return () => entryId(`z-${String(++count).padStart(4, "0")}`);
}

function pastedOnto(commands: readonly Command[], clip: Clip, by: readonly [number, number]) {
  const doc = drawn(...commands);
  const step = pasting(readBoard(doc), clip, at(...by), ids());
  if (step) applyCommand(doc, step.command, LOCAL);
  return { board: readBoard(doc), ids: step?.ids ?? null };
}

it("a group of sources is copied where all of its sources are", () => {
  const more: Command = { do: "addGroup", id: id("g"), sources: [id("V1"), id("I1")] };
  const three = readBoard(drawn(...TWO_SOURCES, V("V2", "4 V", [16, 0], [16, 4]), more));
  const copied = (...names: string[]) => read(writeClip(clipOf(three, new Set(names.map(id)))));
  expect(copied("V1", "V2").groups).toEqual([]);
  expect(copied("V1", "I1", "R1").groups).toEqual([{ id: "g", sources: ["I1", "V1"] }]);
  const { board: pasted } = pastedOnto(TWO_SOURCES, copied("V1", "I1", "V2"), [40, 0]);
  const nameOf = new Map(pasted.parts.map((part) => [part.id, part.name]));
  expect(pasted.groups.map(({ sources }) => sources.map((each) => nameOf.get(each)).sort())).toEqual([["I2", "V2"]]);
});

it("a clip that was written before there were groups has none", () => {
  const { groups: _none, ...older } = JSON.parse(writeClip(whole));
  expect(read(JSON.stringify(older)).groups).toEqual([]);
});

it.each(["moisture-probe", "line-mixer", "bell-transformer", "three-sources"])(
  "the parts of the example %s come back from the text as they were",
  (name) => {
    const example = exampleBoard(name);
    const entries = [...example.parts, ...example.wires, ...example.references, ...example.nodeNames];
    const clip = clipOf(example, new Set(entries.map((entry) => entry.id)));
    expect(read(writeClip(clip))).toEqual(clip);
  },
);

describe("a text that is no clip", () => {
  it.each(["", "R1 4k7", "null", "[]", '{"format":"addend-circuit"}', "{"])("is told as something else: %s", (text) =>
    expect(problemOf(text)).toBe("The clipboard holds no part of a circuit. Copy some on a board first."),
  );

  it("of a later version is told as such", () =>
    expect(problemOf('{"format":"addend-clip","version":2}')).toBe(
      "What is on the clipboard was written in version 2 of its form, which this page cannot read.",
    ));

  it("names the entry and field that cannot be read", () => {
    const json = JSON.parse(writeClip(whole));
    json.parts[1].from = "3;4";
    expect(problemOf(JSON.stringify(json))).toBe(
      "What is on the clipboard has been changed: its part number 2 cannot be read (its from). Nothing was pasted.",
    );
    expect(problemOf('{"format":"addend-clip","version":1,"wires":[7]}')).toContain("its wire number 1");
    expect(problemOf('{"format":"addend-clip","version":1,"wires":"no"}')).toContain("its wire number 1");
  });

  it("never makes the reader throw, whatever is changed in it", () =>
    fc.assert(
      fc.property(fc.nat(200), fc.jsonValue(), (position, value) => {
        let left = position;
        const json = JSON.parse(writeClip(whole), (_key, each: unknown) => {
          left -= 1;
          return left === 0 ? value : each;
        });
        expect(typeof readClip(JSON.stringify(json)).ok).toBe("boolean");
      }),
    ));
});

describe("pasting", () => {
  it("onto a blank board gives the same circuit, names and wanted quantities included", () => {
    const { board: copy } = pastedOnto([], read(writeClip(whole)), [5, 5]);
    const circuit = circuitOf(copy).circuit;
    const before = circuitOf(board).circuit;
    const byName = <T extends { readonly id: string }>(parts: readonly T[]) =>
      [...parts].sort((a, b) => (a.id < b.id ? -1 : 1));
    expect(byName(circuit.parts)).toEqual(byName(before.parts));
    expect(circuit.wanted).toEqual(before.wanted);
    expect(copy.parts.find((part) => part.name === "R3")).toMatchObject({ from: at(17, 5), to: at(17, 9) });
  });

  it("beside what it was copied from takes the next free names, and asks nothing twice", () => {
    const { board: both, ids: placed } = pastedOnto([...TWO_SOURCES, wantCurrent("Ix", "R3")], whole, [0, 10]);
    expect(both.parts.map((part) => part.name).sort()).toEqual(["I1", "I2", "R1", "R2", "R3", "R4", "V1", "V2"]);
    expect(both.wanted.map((wanted) => wanted.name)).toEqual(["Ix"]);
    expect(placed).toHaveLength(all.size);
  });

  it("keeps a control within the copy, and drops one whose part is nowhere", () => {
    const example = exampleBoard("moisture-probe");
    const entries = new Set(example.parts.map((part) => part.id));
    const control = (copy: typeof example) =>
      copy.parts.flatMap((part) => ("control" in part && part.control?.by === "part" ? [part.control.part] : []));
    const { board: copy } = pastedOnto([], clipOf(example, entries), [0, 0]);
    const followed = copy.parts.find((part) => part.id === control(copy)[0]);
    expect(followed?.name).toBe("R1");
    const source = example.parts.filter((part) => "control" in part).map((part) => part.id);
    expect(control(pastedOnto([], clipOf(example, new Set(source)), [0, 0]).board)).toEqual([]);
  });

  it("is one step, and none where it would leave the grid", () => {
    expect(pastedOnto([], whole, [9_999, 0]).ids).toBeNull();
    expect(pasting(board, whole, at(1, 1), ids())?.command.do).toBe("all");
  });
});

it("a clip's corner is its least x and least y", () => {
  expect(cornerOf(whole)).toEqual(at(0, 0));
  expect(cornerOf(clipOf(board, new Set([id("nobody")])))).toBeNull();
});
