import type { UnitSymbol } from "../quantity";
import type { FileSubject } from "./fileProblem";

/** What a file's objects are called in a sentence. */
export const SUBJECTS: Readonly<Record<FileSubject, string>> = {
  resistor: "a resistor",
  capacitor: "a capacitor",
  inductor: "an inductor",
  "voltage-source": "a voltage source",
  "current-source": "a current source",
  vcvs: "a voltage-controlled voltage source",
  vccs: "a voltage-controlled current source",
  ccvs: "a current-controlled voltage source",
  cccs: "a current-controlled current source",
  "ideal-opamp": "an ideal op amp",
  "ideal-transformer": "an ideal transformer",
  switch: "a switch",
  wire: "a wire",
  "circuit file": "a circuit file",
  element: "every element",
  wanted: "a wanted quantity",
  group: "a group of sources",
  drawing: "a drawing",
  line: "the place of a part with two terminals",
  pose: "the place of an op amp or a transformer",
};

/** What a quantity is counted in, and what a quantity in that unit is. */
export const UNITS: Readonly<Record<UnitSymbol, { readonly counted: string; readonly kind: string }>> = {
  Ω: { counted: "ohms (Ω)", kind: "a resistance" },
  S: { counted: "siemens (S)", kind: "a conductance" },
  V: { counted: "volts (V)", kind: "a voltage" },
  A: { counted: "amperes (A)", kind: "a current" },
  W: { counted: "watts (W)", kind: "a power" },
  F: { counted: "farads (F)", kind: "a capacitance" },
  H: { counted: "henries (H)", kind: "an inductance" },
  Hz: { counted: "hertz (Hz)", kind: "a frequency" },
  "rad/s": { counted: "radians per second (rad/s)", kind: "an angular frequency" },
  s: { counted: "seconds (s)", kind: "a time" },
  "°": { counted: "degrees (°)", kind: "an angle" },
  "1": { counted: "a number without a unit", kind: "a number without a unit" },
};
