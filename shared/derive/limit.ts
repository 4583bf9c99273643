import type { Derived } from "./derived";

/**
 * How much is worked out line by line, for pages and servers to rely on: beyond it a derivation has no lines and says
 * so in `omitted`, and nothing is thrown. Nobody writes, or reads, more by hand.
 */
export const WORKING_LIMIT = {
  /** Parts of a circuit; a larger one has no lines at all. */
  parts: 60,
  /** Unknowns of one set of equations. */
  unknowns: 16,
  /** Lines of all workings that are made together; derivations after that have none. */
  lines: 3000,
} as const;

/** Why a derivation has no lines: beyond the limit, or a bug of ours, which is among the faults. */
export type Omission = "too large" | "failed";

export const OMITTED: Derived = {
  derivation: { lines: [], sketches: [], result: null, omitted: "too large" },
  faults: [],
};

/** Lines still to be had, shared by the workings that are made together. */
export class Budget {
  private left: number;

  constructor(parts: number) {
    this.left = parts > WORKING_LIMIT.parts ? 0 : WORKING_LIMIT.lines;
  }

  get isSpent(): boolean {
    return this.left <= 0;
  }

  /** What `derive` makes, at the expense of the budget; omitted where that is spent. */
  spend(derive: () => Derived): Derived {
    if (this.isSpent) return OMITTED;
    const derived = derive();
    this.left -= derived.derivation.lines.length;
    return derived;
  }
}
