import type { AddendReport, Report, WantedReport } from "../solve/report";

/** An addend whose value may be held back: then the coefficient is null too. */
export type HiddenAddend = Omit<AddendReport, "value"> & { readonly value: AddendReport["value"] | null };

/** A wanted quantity of which some may be held back: a hidden total takes second method, note and components with it. */
export type HiddenWanted = Omit<WantedReport, "addends"> & { readonly addends: readonly HiddenAddend[] };

/**
 * A report from which hidden answers are left out. For a hidden addend `partials` has no sheet; with the total hidden
 * `nodes` and `parts` are empty and `powerBalance` is null. What the circuit itself says (sources, problems) is whole.
 */
export type HiddenReport = Omit<Report, "wanted"> & {
  readonly wanted: readonly HiddenWanted[];
  /** Cards whose answers are left out: "total", or the sources of an addend joined by "+". Empty for the instructor. */
  readonly hidden: readonly string[];
};
