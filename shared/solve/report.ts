import type { Severity } from "../circuit/problem";

/** A number as a person reads it, with what is needed to go on computing with it. */
export type Shown = {
  /** The exact number in the coherent SI unit as a fraction, `"3/2500"`; null where it is a double. */
  readonly exact: string | null;
  /** The nearest double in the coherent SI unit; null for a sinusoid or a sum in time. */
  readonly decimal: number | null;
  /** One phasor a frequency (peak unless `measure` says rms); empty for a DC number. `omega` is in rad/s, 0 for the DC term. */
  readonly phasors: readonly PhasorShown[];
  /** As shown: `1.2 mA`, `16 mA ∠ −36.9°`, `5 V + 15 cos(10 t) V`. */
  readonly text: string;
  /** "=" where `text` is the exact number, "≈" where it is rounded. */
  readonly mark: "=" | "≈";
};

export type PhasorShown = {
  readonly omega: number;
  readonly magnitude: number;
  readonly phaseDegrees: number;
  readonly measure: "peak" | "rms";
};

/** What one set of sources, acting alone, gives to the wanted quantity. */
export type AddendReport = {
  readonly sources: readonly string[];
  readonly value: Shown;
  /** `coefficient × source value` where one source acts: 3/7 mS × 15 V. Null for groups and for sinusoids of several frequencies. */
  readonly coefficient: {
    readonly value: Shown;
    readonly unit: string;
    readonly sourceValue: string;
    readonly text: string;
  } | null;
};

export type WantedReport = {
  /** Its name: the given one, or `I(R3)`, `V(a, b)`. */
  readonly name: string;
  readonly kind: string;
  /** In words: "current through R3 from a to b". */
  readonly description: string;
  readonly unit: string;
  /** Null where the circuit's problems leave it without an answer. */
  readonly total: Shown | null;
  /** Empty where the quantity has no addends (power, resistance), and `note` says why. */
  readonly addends: readonly AddendReport[];
  readonly secondMethod: { readonly method: string; readonly value: Shown; readonly agrees: boolean } | null;
  readonly note: string | null;
  /** For equivalents: the named numbers that make it up (`Vth`, `Rth`, `RL`, `Pmax`); empty otherwise. */
  readonly components: readonly { readonly name: string; readonly unit: string; readonly value: Shown }[];
};

export type NodeReport = { readonly node: string; readonly voltage: Shown | null };

/** Branch voltage and current in the part's own forward direction, and power absorbed (average power for sinusoids). */
export type PartReport = {
  /** `R3`; a transformer gives `T1 primary` and `T1 secondary`. */
  readonly branch: string;
  readonly part: string;
  readonly plus: string;
  readonly minus: string;
  readonly voltage: Shown | null;
  readonly current: Shown | null;
  readonly power: Shown | null;
};

export type ProblemReport = {
  readonly code: string;
  readonly severity: Severity;
  readonly parts: readonly string[];
  readonly nodes: readonly string[];
  readonly text: string;
};

/** The whole solution as plain JSON: what `--json` prints and what a room's page receives. */
export type Report = {
  readonly format: "addend-solution";
  readonly version: 1;
  readonly reference: string | null;
  readonly arithmetic: "exact" | "doubles" | "exact and doubles";
  /** Largest |A·x − b| of the equations over the sizes of their terms: 0 when exact, about 10⁻¹⁶ for good doubles. */
  readonly residual: number;
  readonly sources: readonly {
    readonly id: string;
    readonly kind: "voltage-source" | "current-source";
    readonly value: string;
  }[];
  readonly wanted: readonly WantedReport[];
  readonly nodes: readonly NodeReport[];
  readonly parts: readonly PartReport[];
  /** Node voltages and branch currents of each addend's circuit, by the same names; what a drawing of that circuit shows. */
  readonly partials: readonly {
    readonly sources: readonly string[];
    readonly nodes: readonly NodeReport[];
    readonly parts: readonly PartReport[];
  }[];
  /** Supplied less absorbed, exactly 0 for DC; null where nothing was solved. */
  readonly powerBalance: { readonly supplied: Shown; readonly absorbed: Shown; readonly difference: Shown } | null;
  readonly problems: readonly ProblemReport[];
};
