import type { Derivation, MathText, PowerTable, SecondMethod } from "../derive";

/** The worked lines to one state of a room's board, as one participant is sent them. */
export type Workings = {
  /**
   * The last change that they take in. They are not sent again for a board whose lines are the same, so that this may be
   * less than the answers' revision.
   */
  readonly revision: number;
  /** One for each wanted quantity with an answer, in the report's order. */
  readonly workings: readonly ShownWorking[];
  /** Null while it is held back, and where the circuit has none. */
  readonly powerTable: PowerTable | null;
  /** Null where deriving went well; otherwise why there are no workings. */
  readonly failure: WorkingsFailure | null;
};

export type ShownWorking = {
  /** The wanted quantity's name, as in the report. */
  readonly wanted: string;
  readonly kind: string;
  readonly unit: string;
  /** Each source alone, each group on the board, then the total. */
  readonly cards: readonly WorkingCard[];
  /** Null while they are held back. */
  readonly secondMethods: readonly SecondMethod[] | null;
};

export type WorkingCard = {
  /** As `cardOf` names it, or `TOTAL_CARD`. */
  readonly card: string;
  /** How its lines call the addend; null for the total. */
  readonly name: MathText | null;
  /** For those who don't instruct: the first lines alone, the sketches that they speak of, and no result but with the last line. */
  readonly derivation: Derivation;
  /** How many lines those who don't instruct are sent. */
  readonly shownLines: number;
  /** How many there are; null for those who don't instruct. 0 where none could be written. */
  readonly lineCount: number | null;
};

/**
 * "overBudget": ended after `milliseconds`, the longest that deriving may take. "tooLarge": more than `bytes`, the most
 * that is sent. "failed": a defect of ours.
 */
export type WorkingsFailure =
  | { readonly code: "overBudget"; readonly milliseconds: number }
  | { readonly code: "tooLarge"; readonly bytes: number }
  | { readonly code: "failed"; readonly message: string };
