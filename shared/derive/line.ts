import type { Shown } from "../solve";
import type { Omission } from "./limit";
import type { MathText } from "./writing";

/** A rule of the trade, with the parts that it is applied to where the line's own list does not say it. */
export type Rule =
  /** The other independent sources: what each is and what it becomes. */
  | { readonly kind: "zero-sources"; readonly zeroed: readonly Zeroed[] }
  /** Constant sources, steady state: capacitors as opens, inductors as shorts. */
  | { readonly kind: "steady-state"; readonly opens: readonly string[]; readonly shorts: readonly string[] }
  /** What stands across a short, and what lies off every closed path from a source. */
  | { readonly kind: "drop"; readonly shorted: readonly string[]; readonly idle: readonly string[] }
  | { readonly kind: "phasors" }
  | { readonly kind: "series" }
  | { readonly kind: "parallel" }
  | { readonly kind: "wye-delta"; readonly to: "wye" | "delta" }
  /** Sources in parallel or in a row as one. */
  | { readonly kind: "add-sources"; readonly how: "parallel" | "series" }
  /** One side of an ideal transformer as the other sees it. */
  | { readonly kind: "referral"; readonly to: "primary" | "secondary" }
  | { readonly kind: "source-transformation"; readonly to: "voltage" | "current" }
  | { readonly kind: "ohm" }
  | { readonly kind: "voltage-division" }
  | { readonly kind: "current-division"; readonly form: "other-branch" | "conductances" }
  | { readonly kind: "current-law" }
  | { readonly kind: "voltage-law" }
  | { readonly kind: "same-current" }
  | { readonly kind: "same-voltage" }
  | { readonly kind: "nothing-flows" }
  /** The reference direction runs against what was found. */
  | { readonly kind: "sign" }
  | { readonly kind: "op-amp"; readonly form: "inverting" | "summing" | "non-inverting" | "difference" | "follower" }
  | { readonly kind: "node-voltages" }
  | { readonly kind: "mesh-currents" }
  | { readonly kind: "control" }
  | { readonly kind: "node-equation"; readonly isSupernode: boolean }
  | { readonly kind: "mesh-equation"; readonly isSupermesh: boolean }
  /** What a branch says of the unknowns by itself: a source inside a supernode or on the edge of meshes. */
  | { readonly kind: "constraint" }
  | { readonly kind: "solution"; readonly matrix: MathText | null }
  /** The part where something is wanted, removed to see the rest from its nodes. */
  | { readonly kind: "take-out" }
  | { readonly kind: "test-source" }
  | { readonly kind: "equivalent"; readonly what: "resistance" | "load" | "whole" }
  | { readonly kind: "sum-of-addends" }
  | { readonly kind: "sum-in-time" }
  | { readonly kind: "power" };

export type Zeroed = {
  readonly source: string;
  readonly is: "voltage source" | "current source";
  readonly becomes: "short" | "open";
};

/** `left = symbols = numbers = result`; the reader chooses which of symbols and numbers comes first, or alone. */
export type Equation = {
  readonly left: MathText;
  readonly symbols: MathText | null;
  /** Null where there is nothing to put in. */
  readonly numbers: MathText | null;
  /** "≈" where a number put in is rounded; the result is computed from the exact ones all the same. */
  readonly numbersMark: "=" | "≈";
  /** Null for an equation that is not solved yet. */
  readonly result: Shown | null;
  readonly unit: string;
};

/** One line of a solution. Plain JSON. */
export type Line = {
  readonly rule: Rule;
  readonly equations: readonly Equation[];
  /** One plain sentence. */
  readonly sentence: string;
  readonly parts: readonly string[];
  readonly nodes: readonly string[];
  /** Place in the list of sketches of the circuit as it stands after this line; null where it has not changed. */
  readonly sketch: number | null;
};

/** A circuit on the way, its nodes named as in the first one: what a small figure shows. */
export type Sketch = { readonly elements: readonly SketchElement[] };
export type SketchElement = {
  readonly id: string;
  /** A kind of part, or "impedance" for parts taken together at one frequency. */
  readonly kind: string;
  readonly nodes: readonly string[];
  readonly value: string | null;
  /** The parts of the first circuit that it stands for. */
  readonly of: readonly string[];
};

/** A line that did not come out as the solver has it: a bug of ours, told and not shown. */
export type Fault = { readonly where: string; readonly line: string; readonly got: string; readonly expected: string };

/** Lines that lead to one number, with the circuits along the way. */
export type Derivation = {
  readonly lines: readonly Line[];
  readonly sketches: readonly Sketch[];
  readonly result: Shown | null;
  /** Why there are no lines, and then no result: more than `WORKING_LIMIT`, or a fault. Null where there are. */
  readonly omitted: Omission | null;
};
