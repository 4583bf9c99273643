import fc from "fast-check";
import type { RawElement } from "../independent/elements";
import { type CircuitJson, pasteable } from "./circuits";
import { choice, pick, positiveText, signedText } from "./values";

const node = fc.constantFrom("0", "1", "2", "3", "4");
const nodes = (count: number) => fc.array(node, { minLength: count, maxLength: count });

type Plan = { readonly element: Omit<RawElement, "id">; readonly followed: number; readonly against: number };

const twoTerminal = (kind: string, unit: string, value: fc.Arbitrary<string>) =>
  fc.record({ kind: fc.constant(kind), nodes: nodes(2), value: value.map((text) => `${text} ${unit}`) });

const anyResistance = fc.oneof(
  { weight: 8, arbitrary: positiveText },
  { weight: 1, arbitrary: signedText },
  {
    weight: 1,
    arbitrary: fc.constant("0"),
  },
);
const element: fc.Arbitrary<Omit<RawElement, "id">> = fc.oneof(
  { weight: 8, arbitrary: twoTerminal("resistor", "Ω", anyResistance) },
  { weight: 3, arbitrary: twoTerminal("voltage-source", "V", signedText) },
  { weight: 3, arbitrary: twoTerminal("current-source", "A", signedText) },
  { weight: 1, arbitrary: twoTerminal("inductor", "mH", positiveText) },
  { weight: 1, arbitrary: twoTerminal("capacitor", "µF", positiveText) },
  { weight: 1, arbitrary: fc.record({ kind: fc.constant("wire"), nodes: nodes(2) }) },
  {
    weight: 1,
    arbitrary: fc.record({ kind: fc.constant("switch"), nodes: nodes(2), state: fc.constantFrom("open", "closed") }),
  },
  { weight: 1, arbitrary: fc.record({ kind: fc.constant("ideal-opamp"), nodes: nodes(3) }) },
  { weight: 1, arbitrary: fc.record({ kind: fc.constant("ideal-transformer"), nodes: nodes(4), ratio: signedText }) },
  {
    weight: 2,
    arbitrary: fc.record({
      kind: fc.constantFrom("vcvs", "vccs"),
      nodes: nodes(2),
      gain: signedText,
    }),
  },
  {
    weight: 2,
    arbitrary: fc.record({
      kind: fc.constantFrom("ccvs", "cccs"),
      nodes: nodes(2),
      control: fc.record({ direction: fc.constantFrom("forward", "backward") }),
      gain: signedText,
    }),
  },
);

/**
 * Parts thrown between five nodes: floating sections, source loops, cuts of current sources, shorted parts, op amps
 * without feedback. Dependent sources follow nodes and two-terminal parts that are there, themselves included.
 */
export function wildCircuits(): fc.Arbitrary<CircuitJson> {
  const plan: fc.Arbitrary<Plan> = fc.record({ element, followed: choice, against: choice });
  return fc.array(plan, { minLength: 1, maxLength: 12 }).map((plans) => {
    const named = plans.map((planned, index) => ({ ...planned, id: `P${index + 1}` }));
    const followable = named.filter(({ element: { kind } }) => kind !== "ideal-opamp" && kind !== "ideal-transformer");
    const present = named.flatMap(({ element: { nodes } }) => nodes);
    const elements = named.map(({ id, element, followed, against }): RawElement => {
      switch (element.kind) {
        case "vcvs":
        case "vccs": {
          const control = { voltage: [pick(present, followed), pick(present, against)] };
          return { id, ...element, control, ...(element.kind === "vccs" ? { gain_unit: "S" } : {}) };
        }
        case "ccvs":
        case "cccs": {
          const control = { ...element.control, current: pick(followable, followed).id };
          return { id, ...element, control, ...(element.kind === "ccvs" ? { gain_unit: "Ω" } : {}) };
        }
        default:
          return { id, ...element };
      }
    });
    return pasteable({ format: "addend-circuit", version: 1, elements, reference: present[0] ?? "0", wanted: [] });
  });
}
