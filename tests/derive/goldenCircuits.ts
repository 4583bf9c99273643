import type { Grouping } from "../../shared/solve";
import { type Asked, I, type Part, R, V } from "./workedFor";

/** A circuit of ours for a golden text, where the examples and published circuits don't show a rule. */
export type GoldenCircuit = {
  readonly id: string;
  readonly json: unknown;
  readonly groups?: Grouping;
};

function circuit(
  id: string,
  parts: readonly Part[],
  wanted: readonly Asked[],
  groups?: readonly (readonly string[])[],
): GoldenCircuit {
  const elements = parts.map(([part, kind, nodes, value, more]) => ({
    id: part,
    kind,
    nodes,
    ...(value === null ? {} : { value }),
    ...more,
  }));
  const json = { elements, reference: "0", wanted };
  return groups === undefined ? { id, json } : { id, json, groups: groups as Grouping };
}

const OP_AMP = (id: string, plusIn: string, minusIn: string, out: string): Part => [
  id,
  "ideal-opamp",
  [plusIn, minusIn, out],
  null,
];

export const GOLDEN_CIRCUITS: readonly GoldenCircuit[] = [
  // The delta 3, 6, 1 Ω has arms of 1.8, 0.3 and 0.6 Ω: 1.8 + 2 ∥ 3 = 3 Ω, and with 1 Ω before it 3 A of 12 V.
  circuit(
    "bridge-with-feed",
    [
      V("V1", "s", "0", "12 V"),
      R("R6", "s", "t", "1"),
      R("R1", "t", "l", "3"),
      R("R2", "l", "0", "1.7"),
      R("R3", "t", "r", "6"),
      R("R4", "r", "0", "2.4"),
      R("R5", "l", "r", "1"),
    ],
    [{ name: "Ix", quantity: "current", through: "R6", from: "s", to: "t" }],
  ),
  // Two currents into a and two voltages in a row, each pair a group: 2 mA · 1 kΩ = 2 V and 12 V · 1.5/4.5 = 4 V; 6 V.
  // R4 stands across the row: 12 V over 6 kΩ from the voltages, nothing from the currents.
  circuit(
    "two-groups",
    [
      I("I1", "0", "a", "3 mA"),
      I("I2", "a", "0", "1 mA"),
      R("R1", "a", "0", "3k"),
      R("R2", "a", "b", "3k"),
      V("V1", "b", "m", "9 V"),
      V("V2", "m", "0", "3 V"),
      R("R3", "a", "0", "3k"),
      R("R4", "b", "0", "6k"),
    ],
    [
      { name: "Va", quantity: "voltage", at: "a" },
      { name: "Ib", quantity: "current", through: "R4", from: "b", to: "0" },
    ],
    [
      ["I1", "I2"],
      ["V1", "V2"],
    ],
  ),
  // 3 · (V2 − V1) = 3 · (0.9 − 0.5) V = 1.2 V, with both sources in one group.
  circuit(
    "difference-amplifier",
    [
      V("V1", "a", "0", "500 mV"),
      V("V2", "b", "0", "900 mV"),
      R("R1", "a", "n", "10k"),
      R("R2", "n", "o", "30k"),
      R("R3", "b", "p", "20k"),
      R("R4", "p", "0", "60k"),
      OP_AMP("U1", "p", "n", "o"),
      R("R5", "o", "0", "2k"),
    ],
    [{ name: "Vo", quantity: "voltage", at: "o" }],
    [["V1", "V2"]],
  ),
  // A divider of 1/3 into a follower, then a gain of 1 + 20/10: back at 1.5 V.
  circuit(
    "buffered-divider",
    [
      V("V1", "s", "0", "1.5 V"),
      R("R1", "s", "d", "20k"),
      R("R2", "d", "0", "10k"),
      OP_AMP("U1", "d", "f", "f"),
      OP_AMP("U2", "f", "g", "o"),
      R("R3", "g", "0", "10k"),
      R("R4", "g", "o", "20k"),
      R("R5", "o", "0", "3k"),
    ],
    [
      { name: "Vo", quantity: "voltage", at: "o" },
      { name: "Io", quantity: "current", through: "R5", from: "o", to: "0" },
    ],
  ),
  // 8 mV over R2, 40 µA of G1, of which R3 takes 40/50 from 0: −64 mV over 2 kΩ.
  circuit(
    "amplifier-stage",
    [
      V("V1", "s", "0", "10 mV"),
      R("R1", "s", "b", "1k"),
      R("R2", "b", "0", "4k"),
      ["G1", "vccs", ["c", "0"], null, { gain: "0.005", gain_unit: "S", control: { voltage: ["b", "0"] } }],
      R("R3", "c", "0", "2k"),
      R("R4", "c", "0", "8k"),
    ],
    [{ name: "Vo", quantity: "voltage", at: "c" }],
  ),
  // 12 V = 2 Ω · I + 1.5 · (4 Ω · I) + 4 Ω · I: 1 A.
  circuit(
    "loop-that-follows-itself",
    [
      V("V1", "a", "0", "12 V"),
      R("R1", "a", "b", "2"),
      ["E1", "vcvs", ["b", "c"], null, { gain: "1.5", control: { voltage: ["c", "0"] } }],
      R("R2", "c", "0", "4"),
    ],
    [{ name: "Ix", quantity: "current", through: "R2", from: "c", to: "0" }],
  ),
];
