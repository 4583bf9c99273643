import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  type Circuit,
  type CircuitFile,
  type Drawing,
  nodeId,
  type Part,
  type Placement,
  type Point,
  partId,
  readCircuitFile,
} from "../../shared/circuit";
import { EXAMPLES } from "../../shared/examples";
import { layOut, layOutFile } from "../../shared/layout";
import { quantity, rational } from "../../shared/quantity";
import { addendCircuits, circuitOfLines, type NamedCircuit, OWN, PUBLISHED } from "./circuits";
import { isOn, placedTerminals, segmentsOf } from "./geometry";

const ALL = [...PUBLISHED, ...OWN];

function pointsOf({ wires, placements }: Drawing): readonly Point[] {
  const ends = placements.map((each): readonly Point[] => (each.shape === "line" ? [each.from, each.to] : [each.at]));
  return [...ends.flat(), ...wires.flat()];
}

function placementOf(drawing: Drawing, name: string): Placement {
  const found = drawing.placements.find(({ part }) => part === name);
  if (!found) throw new Error(`${name} is not drawn`);
  return found;
}

function middleOf(drawing: Drawing, name: string): Point {
  const placement = placementOf(drawing, name);
  if (placement.shape === "body") return placement.at;
  return [(placement.from[0] + placement.to[0]) / 2, (placement.from[1] + placement.to[1]) / 2];
}

const isUpright = (placement: Placement) => placement.shape === "line" && placement.from[0] === placement.to[0];

/** Places where a level and an upright piece of wire cross, neither ending there. */
function crossingsIn({ wires }: Drawing): number {
  const pieces = wires.flatMap(segmentsOf);
  const level = pieces.filter(([a, b]) => a[1] === b[1]);
  const upright = pieces.filter(([a, b]) => a[0] === b[0]);
  const isInside = (value: number, a: number, b: number) => Math.min(a, b) < value && value < Math.max(a, b);
  return level.flatMap(([[x1, y], [x2]]) =>
    upright.filter(([[x, y1], [, y2]]) => isInside(x, x1, x2) && isInside(y, y1, y2)),
  ).length;
}

const bendsIn = ({ wires }: Drawing) => wires.reduce((sum, wire) => sum + wire.length - 2, 0);

describe("a layout", () => {
  it("is the same every time", () => {
    for (const [name, circuit] of ALL) expect([name, layOut(circuit)]).toEqual([name, layOut(circuit)]);
  });

  it("depends neither on the order of parts nor on the names of nodes", () => {
    // A wanted or followed voltage is marked beside the first of the parts across it, which is a matter of order.
    const others = ALL.filter(([, { parts }]) => parts.every(({ kind }) => kind !== "vcvs" && kind !== "vccs"));
    for (const [name, { parts, reference }] of others) {
      const circuit = { parts, reference, wanted: [] };
      const drawing = layOut(circuit);
      const changed = layOut({ ...renamed(circuit), parts: [...renamed(circuit).parts].reverse() });
      const placements = [...changed.placements].reverse();
      expect([name, { ...changed, placements }]).toEqual([name, drawing]);
    }
  });

  it("lists placements in the order of the parts", () => {
    for (const [, { parts, ...rest }] of ALL) {
      const order = [...parts].reverse();
      const { placements } = layOut({ ...rest, parts: order });
      expect(placements.map(({ part }) => part)).toEqual(order.map(({ id }) => id));
    }
  });

  it("has the reference symbol on the reference node, at the bottom", () => {
    for (const [name, circuit] of ALL) {
      const drawing = layOut(circuit);
      const reference = drawing.reference as Point;
      expect([name, reference[1]]).toEqual([name, Math.max(...pointsOf(drawing).map(([, y]) => y))]);
      const at = placedTerminals(circuit, drawing).filter(({ node }) => node === circuit.reference);
      const isTerminal = at.some(({ at: [x, y] }) => x === reference[0] && y === reference[1]);
      const wire = drawing.wires.find((points) => segmentsOf(points).some((segment) => isOn(reference, segment)));
      const isJoined = at.some(({ at: point }) => wire && segmentsOf(wire).some((segment) => isOn(point, segment)));
      expect([name, isTerminal || isJoined]).toEqual([name, true]);
    }
  });

  it("has no reference symbol where the circuit has no reference node", () =>
    expect(layOut({ ...circuitOfLines("V1 a,b", "R1 a,b"), reference: null }).reference).toBe(null));

  it("is no wider than 7 grid steps a part", () => {
    for (const [name, circuit] of ALL) {
      const xs = pointsOf(layOut(circuit)).map(([x]) => x);
      expect([name, Math.max(...xs) - Math.min(...xs) <= 7 * circuit.parts.length]).toEqual([name, true]);
    }
  });
});

function renamed(circuit: Circuit): Circuit {
  const rename = (node: string) => nodeId(`z${[...node].reverse().join("")}`);
  const inPart = (part: Part): Part => {
    if (part.kind === "ideal-opamp") {
      return { ...part, inPlus: rename(part.inPlus), inMinus: rename(part.inMinus), out: rename(part.out) };
    }
    if (part.kind === "ideal-transformer") {
      return { ...part, primary: pair(part.primary), secondary: pair(part.secondary) };
    }
    return { ...part, ...pair(part) };
  };
  const pair = ({ plus, minus }: { plus: string; minus: string }) => ({ plus: rename(plus), minus: rename(minus) });
  const wanted = circuit.wanted.map((each) =>
    "from" in each ? { ...each, from: rename(each.from), to: rename(each.to) } : each,
  );
  const reference = circuit.reference === null ? null : rename(circuit.reference);
  return { parts: circuit.parts.map(inPart), reference, wanted };
}

describe("a ladder", () => {
  const drawing = layOut(circuitOfLines("V1 p,0", "R1 p,a", "R2 a,0", "R3 a,b", "R4 b,0", "R5 b,c", "R6 c,0"));

  it("has its source at the left, series parts level on one rail and shunts upright", () => {
    const xs = ["V1", "R1", "R2", "R3", "R4", "R5", "R6"].map((name) => middleOf(drawing, name)[0]);
    expect(xs).toEqual([...xs].sort((a, b) => a - b));
    expect(new Set(["R1", "R3", "R5"].map((name) => middleOf(drawing, name)[1])).size).toBe(1);
    for (const name of ["V1", "R2", "R4", "R6"]) expect(isUpright(placementOf(drawing, name))).toBe(true);
  });

  it("has neither crossing nor bend, its corners being parts' ends", () =>
    expect([crossingsIn(drawing), bendsIn(drawing)]).toEqual([0, 0]));
});

describe("the layout of an addend", () => {
  const whole = OWN.find(([name]) => name === "three-sources") as NamedCircuit;
  const drawing = layOut(whole[1]);

  it("keeps the order of the parts in the drawing that it is to be like", () => {
    for (const [, addend] of addendCircuits(whole)) {
      const like = layOut(addend, { like: drawing });
      const order = (of: Drawing) =>
        addend.parts.map(({ id }) => id).sort((a, b) => middleOf(of, a)[0] - middleOf(of, b)[0]);
      expect(order(like)).toEqual(order(drawing));
    }
  });
});

describe("the published examples", () => {
  it("are all drawn without crossings", () => {
    const crossed = ALL.filter(([, circuit]) => crossingsIn(layOut(circuit)) > 0);
    expect(crossed.map(([name]) => name)).toEqual([]);
  });

  // Ladders by their own figures: every part is a shunt or stands between neighbours.
  it.each([
    "liec-node-voltage",
    "liec-two-battery-superposition",
    "nilsson-superposition",
    "ca-supernode",
    "as-4-13",
    "hayt-superposition-two",
    "e84-loaded-divider",
    "three-sources",
    "tank-level-sensor",
  ])("%s, a ladder, has no bend", (name) => {
    const circuit = ALL.find(([id]) => id === name)?.[1] as Circuit;
    expect(bendsIn(layOut(circuit))).toBe(0);
  });

  it.each(["liec-bridge-24v", "e84-bridge-18v-a", "liec-bridge-10v", "door-loop-bridge"])(
    "%s, a bridge, has four bends at most",
    (name) => {
      const circuit = ALL.find(([id]) => id === name)?.[1] as Circuit;
      expect(bendsIn(layOut(circuit))).toBeLessThanOrEqual(4);
    },
  );
});

describe("an amplifier", () => {
  const drawing = layOut(circuitOfLines("V1 i,0", "R1 i,m", "R2 m,o", "U1 0,m,o", "R3 o,0"));

  it("has its inputs at the left with in− above in+, and its output at the right", () =>
    expect(placementOf(drawing, "U1")).toMatchObject({ shape: "body", turn: 0, flip: false }));

  it("has its feedback above it, its source to its left and its load to its right", () => {
    const [x, y] = middleOf(drawing, "U1");
    expect(middleOf(drawing, "R2")[1]).toBeLessThan(y - 2);
    expect(middleOf(drawing, "V1")[0]).toBeLessThan(x);
    expect(middleOf(drawing, "R3")[0]).toBeGreaterThan(x);
    expect(crossingsIn(drawing)).toBe(0);
  });

  it.each([
    ["non-inverting", "V1 i,0", "U1 i,m,o", "R1 m,o", "R2 m,0", "R3 o,0"],
    ["a follower", "V1 s,0", "R1 s,i", "R2 i,0", "U1 i,o,o", "R3 o,0"],
    ["a difference amplifier", "V1 a,0", "V2 b,0", "R1 a,m", "R2 m,o", "R3 b,p", "R4 p,0", "U1 p,m,o", "R5 o,0"],
    ["a cascade", "V1 i,0", "R1 i,m", "R2 m,o", "U1 0,m,o", "R3 o,n", "R4 n,q", "U2 0,n,q"],
  ])("as %s is drawn without crossings", (_, ...lines) =>
    expect(crossingsIn(layOut(circuitOfLines(...lines)))).toBe(0),
  );
});

describe("layOutFile", () => {
  const reading = readCircuitFile(EXAMPLES[0]?.json);
  const file = (reading.ok ? reading.value : null) as CircuitFile;
  const drawing = file.drawing as Drawing;

  it("leaves a file alone that is drawn whole", () => expect(layOutFile(file)).toBe(file));

  it("draws a file that gives no positions", () =>
    expect(layOutFile({ ...file, drawing: null })).toEqual({ ...file, drawing: layOut(file.circuit) }));

  it("draws a file anew that lacks a part", () => {
    const lacking = { ...drawing, placements: drawing.placements.slice(1) };
    expect(layOutFile({ ...file, drawing: lacking })).toEqual({ ...file, drawing: layOut(file.circuit) });
  });
});

describe("a large circuit", () => {
  const ladder = (count: number): Circuit => {
    const parts = Array.from({ length: count }, (_, i): Part => {
      const [from, to] = [nodeId(`${i >> 1}`), i % 2 === 0 ? nodeId("rail") : nodeId(`${(i >> 1) + 1}`)];
      const resistance = quantity(rational(1n, 1n), "Ω");
      return { kind: "resistor", id: partId(`R${String(i).padStart(5, "0")}`), plus: from, minus: to, resistance };
    });
    return { parts, reference: nodeId("rail"), wanted: [] };
  };

  it.each([60, 300, 5000])("of %i parts in a ladder is drawn as one", (count) => {
    const drawing = layOut(ladder(count));
    expect(drawing.placements.length).toBe(count);
    expect(crossingsIn({ ...drawing, wires: drawing.wires.slice(0, 2000) })).toBe(0);
  });

  it("of 5,000 parts between any nodes is drawn whole", () => {
    const random = fc.sample(fc.tuple(fc.nat(2500), fc.nat(2500)), { numRuns: 5000, seed: 1 });
    const parts = random.map(([from, to], i): Part => {
      const resistance = quantity(rational(1n, 1n), "Ω");
      return { kind: "resistor", id: partId(`R${i}`), plus: nodeId(`${from}`), minus: nodeId(`${to}`), resistance };
    });
    expect(layOut({ parts, reference: nodeId("0"), wanted: [] }).placements.length).toBe(5000);
  });
});
