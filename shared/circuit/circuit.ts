import type { Direction, NodeId, Part, PartId } from "./part";

/**
 * A circuit is plain immutable data. Nodes exist by being named by a part; `reference` is the node at 0 V, null where
 * nobody has chosen one. Parts keep the order in which they were given; no answer depends on it.
 */
export type Circuit = {
  readonly parts: readonly Part[];
  readonly reference: NodeId | null;
  readonly wanted: readonly Wanted[];
};

/**
 * A quantity somebody wants to know. Voltages are v(from) − v(to); a port's current flows out of the circuit at
 * `from` and back in at `to`. `name` is how people call it (`Ix`); a name is made where it is null.
 */
export type Wanted = { readonly name: string | null } & (
  | { readonly kind: "current"; readonly through: PartId; readonly winding: Winding; readonly direction: Direction }
  | { readonly kind: "voltage"; readonly from: NodeId; readonly to: NodeId }
  /** Power absorbed by the part; negative where it supplies. */
  | { readonly kind: "power"; readonly of: PartId }
  | { readonly kind: PortKind; readonly from: NodeId; readonly to: NodeId }
);

/**
 * What can be asked of two nodes seen as a port: resistance or impedance with independent sources zeroed, the voltage
 * with nothing joined, the current with the nodes shorted, both equivalents whole, and the load that takes most power.
 */
export type PortKind =
  | "resistance"
  | "impedance"
  | "open-circuit-voltage"
  | "short-circuit-current"
  | "thevenin"
  | "norton"
  | "maximum-power-load";

/** Which winding of a transformer a current is asked in; "primary" for a part of any other kind. */
export type Winding = "primary" | "secondary";
