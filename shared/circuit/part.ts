import type { Farad, Henry, Ohm, Ratio, Siemens, SourceValue } from "../quantity";

declare const brand: unique symbol;
/** Name of a part as people write it: `R3`, `V1`. Unique in its circuit. */
export type PartId = string & { readonly [brand]: "part" };
/** Name of a node. */
export type NodeId = string & { readonly [brand]: "node" };

/** The casts from plain text to names. */
export const partId = (text: string): PartId => text as PartId;
export const nodeId = (text: string): NodeId => text as NodeId;

/**
 * A part with two terminals. Its voltage is that of `plus` less that of `minus`; its current is counted positive
 * from `plus` to `minus` through the part; so v·i > 0 is power absorbed (passive sign convention).
 */
type TwoTerminal = { readonly id: PartId; readonly plus: NodeId; readonly minus: NodeId };

/** What a dependent source follows: the voltage of `plus` less that of `minus`. */
export type VoltageControl = { readonly plus: NodeId; readonly minus: NodeId };

/**
 * What a dependent source follows: the current through a named part, counted from its `plus` to its `minus`
 * terminal where `direction` is "forward", the other way where it is "backward".
 */
export type CurrentControl = { readonly part: PartId; readonly direction: Direction };

/** "forward" is from a part's `plus` terminal to its `minus` terminal through the part. */
export type Direction = "forward" | "backward";

export type Resistor = TwoTerminal & { readonly kind: "resistor"; readonly resistance: Ohm };
export type Capacitor = TwoTerminal & { readonly kind: "capacitor"; readonly capacitance: Farad };
export type Inductor = TwoTerminal & { readonly kind: "inductor"; readonly inductance: Henry };
/** Holds `plus` above `minus` by its voltage. */
export type VoltageSource = TwoTerminal & { readonly kind: "voltage-source"; readonly voltage: SourceValue<"V"> };
/** Drives its current through itself from `plus` to `minus`, so out into the circuit at `minus` (the arrow's head). */
export type CurrentSource = TwoTerminal & { readonly kind: "current-source"; readonly current: SourceValue<"A"> };
export type VoltageControlledVoltageSource = TwoTerminal & {
  readonly kind: "vcvs";
  readonly control: VoltageControl;
  readonly gain: Ratio;
};
export type VoltageControlledCurrentSource = TwoTerminal & {
  readonly kind: "vccs";
  readonly control: VoltageControl;
  readonly gain: Siemens;
};
export type CurrentControlledVoltageSource = TwoTerminal & {
  readonly kind: "ccvs";
  readonly control: CurrentControl;
  readonly gain: Ohm;
};
export type CurrentControlledCurrentSource = TwoTerminal & {
  readonly kind: "cccs";
  readonly control: CurrentControl;
  readonly gain: Ratio;
};
/** No current into `inPlus` and `inMinus`, which it holds equal by driving whatever current it must out of `out`. */
export type IdealOpAmp = {
  readonly kind: "ideal-opamp";
  readonly id: PartId;
  readonly inPlus: NodeId;
  readonly inMinus: NodeId;
  readonly out: NodeId;
};
/** v(primary) = ratio · v(secondary) and ratio · i(primary) = −i(secondary), both currents into the dotted `plus` ends. */
export type IdealTransformer = {
  readonly kind: "ideal-transformer";
  readonly id: PartId;
  readonly primary: VoltageControl;
  readonly secondary: VoltageControl;
  readonly ratio: Ratio;
};
export type Switch = TwoTerminal & { readonly kind: "switch"; readonly state: "open" | "closed" };
/** A wire that is a part of its own because somebody wants, or a source follows, the current in it. */
export type Wire = TwoTerminal & { readonly kind: "wire" };

export type IndependentSource = VoltageSource | CurrentSource;
export type DependentSource =
  | VoltageControlledVoltageSource
  | VoltageControlledCurrentSource
  | CurrentControlledVoltageSource
  | CurrentControlledCurrentSource;
export type Part =
  | Resistor
  | Capacitor
  | Inductor
  | IndependentSource
  | DependentSource
  | IdealOpAmp
  | IdealTransformer
  | Switch
  | Wire;
export type PartKind = Part["kind"];

export type Terminal = { readonly name: string; readonly node: NodeId };

/** The terminals of a part with the nodes they are joined to, in the order in which a file lists them. */
export function terminalsOf(part: Part): readonly Terminal[] {
  switch (part.kind) {
    case "ideal-opamp":
      return [
        { name: "in+", node: part.inPlus },
        { name: "in−", node: part.inMinus },
        { name: "out", node: part.out },
      ];
    case "ideal-transformer":
      return [
        { name: "primary +", node: part.primary.plus },
        { name: "primary −", node: part.primary.minus },
        { name: "secondary +", node: part.secondary.plus },
        { name: "secondary −", node: part.secondary.minus },
      ];
    default:
      return [
        { name: "+", node: part.plus },
        { name: "−", node: part.minus },
      ];
  }
}

export function isIndependentSource(part: Part): part is IndependentSource {
  return isSourceKind(part.kind);
}

/** Whether parts of this kind are independent sources. */
export function isSourceKind(kind: PartKind): kind is IndependentSource["kind"] {
  return kind === "voltage-source" || kind === "current-source";
}

export function isDependentSource(part: Part): part is DependentSource {
  return part.kind === "vcvs" || part.kind === "vccs" || part.kind === "ccvs" || part.kind === "cccs";
}
