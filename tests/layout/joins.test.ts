import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Circuit, type NodeId, nodeId, type Part, partId } from "../../shared/circuit";
import { layOut } from "../../shared/layout";
import { quantity, rational } from "../../shared/quantity";
import { circuits, EVERY_PART, pasteable } from "../generators/circuits";
import { addendCircuits, circuitFrom, circuitOfLines, OWN, PUBLISHED } from "./circuits";
import { joinFaults } from "./geometry";
import { overlapsIn, wireFaults } from "./room";

/** What is wrong with a layout: joins that differ from the circuit's, wires that mislead, things that overlap. */
function faults(circuit: Circuit, options = {}): readonly string[] {
  const drawing = layOut(circuit, options);
  return [
    ...joinFaults(circuit, drawing),
    ...wireFaults(circuit, drawing),
    ...overlapsIn(circuit, drawing),
    ...drawing.placements.flatMap((placement) => {
      if (placement.shape === "body") return [];
      const [[x1, y1], [x2, y2]] = [placement.from, placement.to];
      const isStraight = x1 === x2 || y1 === y2;
      return isStraight && Math.abs(x1 - x2) + Math.abs(y1 - y2) === 4 ? [] : [`${placement.part} is not 4 long`];
    }),
  ];
}

describe.each([...PUBLISHED, ...OWN])("the layout of %s", (name, circuit) => {
  it("joins what the circuit joins, and nothing in it overlaps", () => expect(faults(circuit)).toEqual([]));

  it("does so with each source acting alone, other voltage sources short and current sources gone", () => {
    for (const [addend, part] of addendCircuits([name, circuit])) expect([addend, faults(part)]).toEqual([addend, []]);
  });

  it("does so with room for values", () => expect(faults(circuit, { hasValues: true })).toEqual([]));
});

const ODD: readonly (readonly [what: string, ...lines: readonly string[]])[] = [
  ["a part alone", "R1 a,b"],
  ["a part with both ends at the reference", "R1 0,0"],
  ["a part with both ends at one node", "V1 a,0", "R1 a,b", "R2 b,b", "R3 b,0"],
  ["sections that nothing joins", "V1 a,0", "R1 a,0", "V2 x,y", "R2 x,y", "R3 p,p"],
  ["open ends", "V1 a,0", "R1 a,b", "R2 b,c", "R3 b,d", "R4 d,0", "R5 d,e"],
  ["many parts in parallel between two nodes", "V1 a,0", ...[1, 2, 3, 4, 5, 6].map((i) => `R${i} a,b`), "C1 b,0"],
  ["an amplifier whose inputs are both its output", "U1 a,a,a", "R1 a,0"],
  ["an amplifier with its output at the reference", "U1 a,b,0", "R1 a,b", "R2 b,0"],
  ["an amplifier alone", "U1 a,b,c"],
  ["followers in a ring", "U1 a,b,b", "U2 b,c,c", "U3 c,a,a", "R1 a,0"],
  ["two amplifiers with one inverting input", "U1 0,m,a", "U2 0,m,b", "R1 a,m", "R2 b,m"],
  ["two amplifiers that drive one node", "U1 0,a,o", "U2 0,b,o", "R1 a,o", "R2 b,o"],
  ["a transformer between sections", "V1 a,0", "T1 a,0,c,d", "R1 c,d"],
  ["transformers in a ring", "T1 a,b,c,d", "T2 c,d,a,b", "R1 a,b"],
  ["a transformer with both windings upside down", "V1 a,0", "T1 0,a,0,b", "R1 b,0"],
  ["a transformer with a winding shorted", "V1 a,0", "T1 a,0,b,b", "R1 b,0"],
  ["switches and wires between nodes", "V1 a,0", "S1 a,b", "W1 b,c", "R1 c,0", "W2 0,0"],
];

describe("a layout of", () => {
  it.each(ODD)("%s joins what the circuit joins", (_, ...lines) => {
    const circuit = circuitOfLines(...lines);
    const drawing = layOut(circuit);
    expect([...joinFaults(circuit, drawing), ...wireFaults(circuit, drawing)]).toEqual([]);
  });

  it("no parts is empty", () =>
    expect(layOut({ parts: [], reference: null, wanted: [] })).toEqual({ placements: [], wires: [], reference: null }));

  it("random circuits joins what the circuit joins", () =>
    fc.assert(
      fc.property(circuits(EVERY_PART), fc.boolean(), (json, hasValues) => {
        const circuit = circuitFrom(json);
        const drawing = layOut(circuit, { hasValues });
        expect([...joinFaults(circuit, drawing), ...wireFaults(circuit, drawing)]).toEqual([]);
      }),
      { numRuns: 100 },
    ));

  it("parts between any nodes whatever joins what the circuit joins", () =>
    fc.assert(
      fc.property(anyParts, fc.boolean(), ({ parts }, hasReference) => {
        const circuit = { parts, reference: hasReference ? nodeId("0") : null, wanted: [] };
        const drawing = layOut(circuit);
        expect([...joinFaults(circuit, drawing), ...wireFaults(circuit, drawing)]).toEqual([]);
      }),
      { numRuns: 250 },
    ));
});

const node = fc.integer({ min: 0, max: 7 }).map((number) => nodeId(`${number}`));
const anyParts = fc
  .array(fc.tuple(fc.integer({ min: 0, max: 6 }), node, node, node, node), { minLength: 1, maxLength: 16 })
  .map((plans) => pasteable({ parts: plans.map(([kind, ...nodes], i) => anyPart(kind, nodes, `P${i}`)) }));

function anyPart(kind: number, [a, b, c, d]: readonly [NodeId, NodeId, NodeId, NodeId], name: string): Part {
  const id = partId(name);
  const one = rational(1n, 1n);
  if (kind === 0) return { kind: "ideal-opamp", id, inPlus: a, inMinus: b, out: c };
  if (kind === 1) {
    const [primary, secondary] = [
      { plus: a, minus: b },
      { plus: c, minus: d },
    ];
    return { kind: "ideal-transformer", id, primary, secondary, ratio: quantity(one, "1") };
  }
  if (kind === 2) return { kind: "wire", id, plus: a, minus: b };
  return { kind: "resistor", id, plus: a, minus: b, resistance: quantity(one, "Ω") };
}
