import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  type CircuitFile,
  nodeId,
  partId,
  readCircuitFile,
  readCircuitText,
  writeCircuitFile,
} from "../../shared/circuit";
import { circuitFiles } from "./circuitFiles";

describe("a circuit file", () => {
  it("that was written reads back as it was, through text as well", () =>
    fc.assert(
      fc.property(circuitFiles, (file) => {
        const text = JSON.stringify(writeCircuitFile(file));
        expect(readCircuitText(text)).toEqual({ ok: true, value: file });
      }),
      { numRuns: 300 },
    ));

  it("is written without what points at nothing", () => {
    const reading = readCircuitFile({ elements: [{ id: "R1", kind: "resistor", nodes: ["a", "b"], value: "2 Ω" }] });
    if (!reading.ok) throw new Error("the base is readable");
    const file = reading.value;
    const stray: CircuitFile = {
      ...file,
      circuit: {
        ...file.circuit,
        reference: nodeId("c"),
        wanted: [
          { name: null, kind: "power", of: partId("R2") },
          { name: null, kind: "voltage", from: nodeId("a"), to: nodeId("c") },
        ],
      },
    };
    expect(writeCircuitFile(stray)).toMatchObject({ reference: null, wanted: [] });
    expect(readCircuitFile(writeCircuitFile(stray))).toEqual({ ok: true, value: file });
  });
});

describe("groups of sources in a circuit file", () => {
  const source = (id: string) => ({ id, kind: "voltage-source", nodes: ["a", id], value: "1 V" });
  const sources = ["V1", "V2", "V3"].map(source);
  const read = (json: unknown): CircuitFile => {
    const reading = readCircuitFile(json);
    if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
    return reading.value;
  };

  it("are none in a file that was written before there were any", () => {
    expect(read({ format: "addend-circuit", version: 1, elements: sources }).groups).toEqual([]);
  });

  it("keep their order and that of their sources", () => {
    const groups = [{ sources: ["V3", "V1"] }, { sources: ["V1", "V2"] }];
    const file = read({ elements: sources, groups });
    expect(file.groups).toEqual([
      ["V3", "V1"],
      ["V1", "V2"],
    ]);
    expect(writeCircuitFile(file)).toMatchObject({ version: 1, groups });
  });

  it("that do not stand are not written: of one source, of all, of a part that is gone, and the same again", () => {
    const file = read({ elements: sources });
    const groups = [["V1"], ["V1", "V2", "V3"], ["V1", "V9"], ["V1", "V2"], ["V2", "V1"]].map((ids) => ids.map(partId));
    expect(writeCircuitFile({ ...file, groups }).groups).toEqual([{ sources: ["V1", "V2"] }]);
    expect(writeCircuitFile(file)).not.toHaveProperty("groups");
  });

  it("are not said to be all sources while another element cannot be read", () => {
    const reading = readCircuitFile({
      elements: [...sources.slice(0, 2), { id: "V3" }],
      groups: [{ sources: ["V1", "V2"] }],
    });
    expect(reading).toMatchObject({ ok: false, problems: [{ path: ["elements", 2, "kind"] }] });
  });
});

describe("random JSON", () => {
  const json = fc.jsonValue({ maxDepth: 5 });
  const near = fc.record(
    {
      elements: fc.array(
        fc.record(
          {
            id: fc.oneof(fc.constantFrom("R1", "V1", ""), json),
            kind: fc.oneof(fc.constantFrom("resistor", "voltage-source", "vcvs", "cccs", "ideal-opamp", "wire"), json),
            nodes: fc.oneof(fc.array(fc.constantFrom("a", "b", "0")), json),
            value: fc.oneof(fc.constantFrom("5 Ω", "9 V", 3), json),
            control: fc.oneof(fc.constantFrom({ current: "R1" }, { voltage: ["a", "b"] }), json),
            gain: json,
            drawn: fc.oneof(fc.constant({ from: [0, 0], to: [4, 0] }), json),
          },
          { requiredKeys: [] },
        ),
      ),
      reference: fc.oneof(fc.constantFrom("a", "0"), json),
      wanted: fc.oneof(
        fc.array(
          fc.record(
            { quantity: fc.oneof(fc.constantFrom("current", "voltage", "norton"), json), through: json, from: json },
            { requiredKeys: [] },
          ),
        ),
        json,
      ),
      groups: fc.oneof(
        fc.array(fc.record({ sources: fc.oneof(fc.array(fc.constantFrom("R1", "V1", "x")), json) })),
        json,
      ),
      drawing: fc.oneof(fc.record({ wires: json, reference: json }, { requiredKeys: [] }), json),
    },
    { requiredKeys: [] },
  );

  it("is read or refused with sentences, never thrown at", () =>
    fc.assert(
      fc.property(fc.oneof(json, near), (value) => {
        const reading = readCircuitFile(value);
        expect(reading.ok || reading.problems.length > 0).toBe(true);
      }),
      { numRuns: 1500 },
    ));

  it("cut off anywhere is refused as no JSON", () =>
    fc.assert(
      fc.property(circuitFiles, fc.nat(), (file, cut) => {
        const text = JSON.stringify(writeCircuitFile(file), null, 2);
        const reading = readCircuitText(text.slice(0, 1 + (cut % (text.length - 1))));
        expect(reading.ok ? "read" : reading.problems[0].code).toBe("notJson");
      }),
      { numRuns: 100 },
    ));

  it("with one character changed is faulted where JSON.parse faults it, and only there", () =>
    fc.assert(
      fc.property(circuitFiles, fc.nat(), fc.constantFrom(...'{}[]:,"\\0x \n-.e'), (file, place, character) => {
        const whole = JSON.stringify(writeCircuitFile(file));
        const at = place % whole.length;
        const text = whole.slice(0, at) + character + whole.slice(at + 1);
        const reading = readCircuitText(text);
        expect(!reading.ok && reading.problems[0].code === "notJson").toBe(!parses(text));
      }),
      { numRuns: 400 },
    ));
});

function parses(text: string): boolean {
  try {
    JSON.parse(text);
    return true;
  } catch {
    return false;
  }
}
