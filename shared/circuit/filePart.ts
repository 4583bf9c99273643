import { unreachable } from "../quantity";
import type { ElementEntry } from "./fileElementSchema";
import { type ElementContext, nonZeroFrom, quantityFrom } from "./fileQuantity";
import { sourceValueOf } from "./fileSource";
import { type CurrentControl, nodeId, type Part, partId, type VoltageControl } from "./part";

/** The part that an element of the right shape gives. Values that cannot be read are added to the problems. */
export function partFrom(entry: ElementEntry, context: ElementContext): Part {
  const { path, problems } = context;
  const at = <K extends ElementEntry["kind"]>(field: string, subject: K) => ({
    path: [...path, field],
    subject,
    problems,
  });
  switch (entry.kind) {
    case "resistor":
      return {
        kind: entry.kind,
        ...endsOf(entry),
        resistance: quantityFrom(entry.value, "Ω", at("value", entry.kind)),
      };
    case "capacitor":
      return {
        kind: entry.kind,
        ...endsOf(entry),
        capacitance: nonZeroFrom(entry.value, "F", at("value", entry.kind)),
      };
    case "inductor":
      return { kind: entry.kind, ...endsOf(entry), inductance: nonZeroFrom(entry.value, "H", at("value", entry.kind)) };
    case "voltage-source":
      return { kind: entry.kind, ...endsOf(entry), voltage: sourceValueOf(entry, "V", context) };
    case "current-source":
      return { kind: entry.kind, ...endsOf(entry), current: sourceValueOf(entry, "A", context) };
    case "vcvs":
    case "vccs":
    case "ccvs":
    case "cccs":
      return dependentSource(entry, context);
    case "ideal-opamp":
      return {
        kind: entry.kind,
        id: partId(entry.id),
        inPlus: nodeId(entry.nodes[0]),
        inMinus: nodeId(entry.nodes[1]),
        out: nodeId(entry.nodes[2]),
      };
    case "ideal-transformer":
      return {
        kind: entry.kind,
        id: partId(entry.id),
        primary: { plus: nodeId(entry.nodes[0]), minus: nodeId(entry.nodes[1]) },
        secondary: { plus: nodeId(entry.nodes[2]), minus: nodeId(entry.nodes[3]) },
        ratio: nonZeroFrom(entry.ratio, "1", at("ratio", entry.kind)),
      };
    case "switch":
      return { kind: entry.kind, ...endsOf(entry), state: entry.state };
    case "wire":
      return { kind: entry.kind, ...endsOf(entry) };
    default:
      return unreachable(entry);
  }
}

type DependentEntry = Extract<ElementEntry, { kind: "vcvs" | "vccs" | "ccvs" | "cccs" }>;

function dependentSource(entry: DependentEntry, { path, problems }: ElementContext): Part {
  const site = { path: [...path, "gain"], subject: entry.kind, problems };
  const ends = endsOf(entry);
  switch (entry.kind) {
    case "vcvs":
      return {
        kind: entry.kind,
        ...ends,
        control: voltageControl(entry.control),
        gain: quantityFrom(entry.gain, "1", site),
      };
    case "vccs":
      return {
        kind: entry.kind,
        ...ends,
        control: voltageControl(entry.control),
        gain: quantityFrom(entry.gain, "S", site),
      };
    case "ccvs":
      return {
        kind: entry.kind,
        ...ends,
        control: currentControl(entry.control),
        gain: quantityFrom(entry.gain, "Ω", site),
      };
    case "cccs":
      return {
        kind: entry.kind,
        ...ends,
        control: currentControl(entry.control),
        gain: quantityFrom(entry.gain, "1", site),
      };
    default:
      return unreachable(entry);
  }
}

function endsOf(entry: { readonly id: string; readonly nodes: readonly [string, string] }) {
  return { id: partId(entry.id), plus: nodeId(entry.nodes[0]), minus: nodeId(entry.nodes[1]) };
}

function voltageControl(entry: { readonly voltage: readonly [string, string] }): VoltageControl {
  return { plus: nodeId(entry.voltage[0]), minus: nodeId(entry.voltage[1]) };
}

function currentControl(entry: {
  readonly current: string;
  readonly direction?: CurrentControl["direction"] | undefined;
}): CurrentControl {
  return { part: partId(entry.current), direction: entry.direction ?? "forward" };
}
