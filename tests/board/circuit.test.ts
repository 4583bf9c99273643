import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Command, circuitOf, readBoard } from "../../shared/board";
import { at, drawn, I, id, R, reference, TWO_SOURCES, V, wantCurrent, wire } from "./builders";

const circuitFrom = (...commands: readonly Command[]) => circuitOf(readBoard(drawn(...commands)));
const nodesOf = (commands: readonly Command[]) =>
  circuitFrom(...commands).circuit.parts.map((part) => ("plus" in part ? [part.id, part.plus, part.minus] : [part.id]));

describe("nodes", () => {
  it('are named a, b, … as a page is read, and "0" at the reference symbol', () =>
    expect(nodesOf(TWO_SOURCES)).toEqual([
      ["I1", "0", "b"],
      ["R1", "a", "b"],
      ["R3", "b", "0"],
      ["V1", "a", "0"],
    ]));

  it("keep their names whatever ids the entries have", () =>
    fc.assert(
      fc.property(fc.shuffledSubarray(["k", "p", "e", "z", "b", "q", "m"], { minLength: 7 }), (ids) => {
        const renamed = TWO_SOURCES.map((command, i) => ({ ...command, id: id(ids[i] as string) }) as Command);
        expect(nodesOf(renamed).sort()).toEqual(nodesOf(TWO_SOURCES).sort());
      }),
    ));

  it("are all lettered where no reference symbol stands", () =>
    expect(nodesOf(TWO_SOURCES.slice(0, -1)).flat()).toEqual(
      ["I1", "c", "b", "R1", "a", "b", "R3", "b", "c", "V1", "a", "c"], //
    ));

  it("under two reference symbols are one node", () => {
    const { circuit } = circuitFrom(
      V("V1", "5 V", [0, 0], [0, 4]),
      R("R1", "1k", [0, 0], [4, 0]),
      reference("g1", 0, 4),
      reference("g2", 4, 0),
    );
    expect(circuit.parts).toMatchObject([
      { plus: "a", minus: "0" },
      { plus: "a", minus: "0" },
    ]);
  });

  it("take the name that somebody gave", () => {
    const { circuit } = circuitFrom(...TWO_SOURCES, { do: "nameNode", id: id("n"), at: at(10, 0), name: "out" });
    expect(circuit.parts.find((part) => part.id === "R3")).toMatchObject({ plus: "out", minus: "0" });
  });

  it("refuse a name that another node has", () => {
    const { problems } = circuitFrom(
      ...TWO_SOURCES,
      { do: "nameNode", id: id("n1"), at: at(10, 0), name: "x" },
      { do: "nameNode", id: id("n2"), at: at(0, 0), name: "x" },
    );
    expect(problems).toEqual([{ code: "nodeNameTaken", entry: "n2", name: "x" }]);
  });

  it("are found at any point of a wire, and nowhere in the open", () => {
    const { nodeAt } = circuitFrom(...TWO_SOURCES);
    expect([nodeAt(at(5, 0)), nodeAt(at(3, 4)), nodeAt(at(3, 2))]).toEqual(["b", "0", null]);
  });
});

describe("a value that cannot be read", () => {
  it("leaves its part out, says why beside it, and keeps the rest", () => {
    const { circuit, problems } = circuitFrom(...TWO_SOURCES, { do: "setValue", id: id("R3"), value: "5 mA" });
    expect(circuit.parts.map((part) => part.id)).toEqual(["I1", "R1", "V1"]);
    expect(problems).toMatchObject([{ code: "unreadableValue", entry: "R3", problem: { code: "wrongUnit" } }]);
  });

  it("takes the wanted quantity of its part along", () => {
    const broken: Command = { do: "setValue", id: id("R3"), value: "" };
    const { circuit, problems } = circuitFrom(...TWO_SOURCES, wantCurrent("Ix", "R3"), broken);
    expect(circuit.wanted).toEqual([]);
    expect(problems).toMatchObject([{ code: "missingValue", entry: "R3" }]);
  });

  it("may be 0 for a resistor but not for a capacitor", () => {
    const capacitor = {
      shape: "line",
      kind: "capacitor",
      name: "C1",
      value: "0 F",
      from: at(4, 0),
      to: at(8, 0),
    } as const;
    const { circuit, problems } = circuitFrom(
      R("R1", "0", [0, 0], [4, 0]),
      { do: "placePart", id: id("C1"), part: capacitor }, //
    );
    expect(circuit.parts.map((part) => part.id)).toEqual(["R1"]);
    expect(problems).toMatchObject([{ code: "zeroValue", entry: "C1" }]);
  });
});

describe("a drawn wire", () => {
  const ring = [
    V("V1", "5 V", [0, 0], [0, 4]),
    R("R1", "1k", [4, 0], [4, 4]),
    wire("w", [0, 0], [4, 0]),
    wire("x", [0, 4], [4, 4]),
  ];

  it("joins its ends where nobody asks about it", () =>
    expect(circuitFrom(...ring).circuit.parts.map((part) => part.id)).toEqual(["R1", "V1"]));

  it("is a part where its current is wanted", () => {
    const { circuit } = circuitFrom(...ring, wantCurrent("Iw", "w"));
    expect(circuit.parts.at(-1)).toMatchObject({ kind: "wire", plus: "a", minus: "b" });
    expect(circuit.wanted).toMatchObject([{ kind: "current", through: circuit.parts.at(-1)?.id, name: "Iw" }]);
  });

  it("has no one current where something meets it between its ends", () => {
    const { problems } = circuitFrom(...ring, I("I1", "1 A", [2, 0], [2, 4]), wantCurrent("Iw", "w"));
    expect(problems).toMatchObject([{ code: "joinInsideWire", entry: "w" }]);
  });
});

describe("a dependent source", () => {
  const source = (control: "R1" | "gone") =>
    ({
      do: "placePart",
      id: id("D1"),
      part: {
        shape: "line",
        kind: "ccvs",
        name: "D1",
        value: "500",
        from: at(4, 0),
        to: at(8, 0),
        control: { by: "part", part: id(control), direction: "backward" },
      },
    }) as const;

  it("follows the part that was picked, in its direction", () => {
    const { circuit } = circuitFrom(R("R1", "1k", [0, 0], [4, 0]), source("R1"));
    expect(circuit.parts[0]).toMatchObject({ kind: "ccvs", control: { part: "R1", direction: "backward" } });
  });

  it("says so where the part that it follows is gone", () => {
    const { problems } = circuitFrom(R("R1", "1k", [0, 0], [4, 0]), source("gone"));
    expect(problems).toMatchObject([{ code: "missingControl", entry: "D1", follows: "current" }]);
  });
});

it("reads a wanted voltage across a part backwards where its signs are the other way round", () => {
  const mark = { kind: "voltage", across: { by: "part", part: id("R1"), direction: "backward" } } as const;
  const { circuit } = circuitFrom(...TWO_SOURCES, { do: "setWanted", id: id("w"), name: "Vx", mark });
  expect(circuit.wanted).toEqual([{ name: "Vx", kind: "voltage", from: "b", to: "a" }]);
});

it("says that a reference symbol touches nothing", () => {
  const { circuit, problems } = circuitFrom(R("R1", "1k", [0, 0], [4, 0]), reference("g", 9, 9));
  expect(circuit.reference).toBeNull();
  expect(problems).toEqual([{ code: "referenceOffCircuit", entry: "g" }]);
});

it("turns an op amp and flips it as the drawing says", () => {
  const block = {
    shape: "block",
    kind: "ideal-opamp",
    name: "A1",
    value: null,
    at: at(0, 0),
    turn: 90,
    flip: true,
  } as const;
  const { nodeAt, circuit } = circuitFrom(
    { do: "placePart", id: id("A1"), part: block },
    { do: "nameNode", id: id("p"), at: at(1, -2), name: "p" },
    { do: "nameNode", id: id("m"), at: at(-1, -2), name: "m" },
    { do: "nameNode", id: id("o"), at: at(0, 2), name: "o" },
  );
  // Flipped, in+ lies at (−2, −1); a quarter turn clockwise takes it to (1, −2), in− from (−2, 1) to (−1, −2).
  expect(circuit.parts).toMatchObject([{ inPlus: "p", inMinus: "m", out: "o" }]);
  expect(nodeAt(at(0, 2))).toBe("o");
});
