import type { Rational } from "../quantity";
import type { NodeId, PartId } from "./part";

/**
 * Something found in a circuit, told by code and data; `problemText` makes the sentences. "fault" is to be mended
 * before the answers it touches exist; "notice" is allowed and only said.
 */
export type Problem =
  | { readonly code: "noReference"; readonly chosen: NodeId }
  | { readonly code: "noParts" }
  /** `heldOffBy` are the open switches and capacitors that stand between the section and the rest; empty where nothing does. */
  | {
      readonly code: "floatingSection";
      readonly nodes: readonly NodeId[];
      readonly parts: readonly PartId[];
      readonly heldOffBy: readonly PartId[];
    }
  /** A section that only a transformer ties to the rest: fine, its voltages are counted from `chosen`. */
  | {
      readonly code: "isolatedSection";
      readonly nodes: readonly NodeId[];
      readonly parts: readonly PartId[];
      readonly chosen: NodeId;
    }
  | { readonly code: "danglingTerminal"; readonly part: PartId; readonly node: NodeId }
  | { readonly code: "shortedPart"; readonly part: PartId; readonly node: NodeId }
  /** `mismatch` in V is the sum of the source voltages around the loop; null where sinusoids make it no one number. */
  | { readonly code: "voltageSourceLoop"; readonly parts: readonly PartId[]; readonly mismatch: Rational | null }
  /** `mismatch` in A is the sum of the source currents into `nodes`; null as above. */
  | {
      readonly code: "currentSourceCut";
      readonly parts: readonly PartId[];
      readonly nodes: readonly NodeId[];
      readonly mismatch: Rational | null;
    }
  | { readonly code: "opAmpWithoutFeedback"; readonly part: PartId }
  | { readonly code: "opAmpPositiveFeedback"; readonly part: PartId }
  | { readonly code: "controlMissing"; readonly part: PartId; readonly control: string }
  | { readonly code: "controlUndetermined"; readonly part: PartId; readonly control: string }
  /** The equations have no single solution: `parts` are the dependent sources, op amps and transformers that make it so. */
  | {
      readonly code: "singularEquations";
      readonly parts: readonly PartId[];
      readonly nodes: readonly NodeId[];
      readonly omega: number | null;
    }
  | { readonly code: "zeroResistance"; readonly parts: readonly PartId[] }
  | { readonly code: "negativeValue"; readonly parts: readonly PartId[] }
  | { readonly code: "wantedUnknownPart"; readonly wanted: string; readonly part: string }
  | { readonly code: "wantedUnknownNode"; readonly wanted: string; readonly node: string }
  | { readonly code: "wantedUndetermined"; readonly wanted: string; readonly parts: readonly PartId[] }
  /** Current of a wire or switch that others bypass: any split of the current satisfies the laws. */
  | { readonly code: "undeterminedCurrent"; readonly parts: readonly PartId[] }
  | {
      readonly code: "noEquivalent";
      readonly wanted: string;
      readonly reason: "ideal voltage source" | "ideal current source" | "not positive";
    }
  | { readonly code: "steadyStateOnly"; readonly wanted: string }
  | { readonly code: "constantSteadyState"; readonly parts: readonly PartId[] }
  | { readonly code: "beyondExtraLowVoltage"; readonly parts: readonly PartId[] }
  | { readonly code: "inDoubles"; readonly unknowns: number; readonly limit: number }
  | { readonly code: "largeResidual"; readonly omega: number; readonly residual: number };

export type Severity = "fault" | "notice";
