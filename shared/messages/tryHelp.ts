/** A rung of help with a wrong value: one sentence or two, and what they name of the circuit. */
export type Rung = {
  readonly text: string;
  /** Names of parts and nodes that the text names, and no others. */
  readonly parts: readonly string[];
  readonly nodes: readonly string[];
};

/** What is known of the help with a wrong value: nothing but what was asked for, and no word of how much is left. */
export type TryHelp = {
  /** Those that were given, first to last. */
  readonly rungs: readonly Rung[];
  /** Whether there is something more to ask for. */
  readonly hasMore: boolean;
  /** What is to be answered before there is more help. */
  readonly question: HelpQuestion | null;
  readonly reason: HelpReason;
};

/** Two ways lead to the value, and nobody but whoever tried it knows which it was. */
export type HelpQuestion = {
  readonly text: string;
  /** The two deeds, as they go on behind “Did you”. */
  readonly deeds: readonly [string, string];
};

export type HelpReason =
  | { readonly state: "notAsked" }
  /** The last rung is given: why was it so? */
  | { readonly state: "asked" }
  /** `text` is for instructors; null for everybody else. */
  | { readonly state: "given"; readonly name: string; readonly text: string | null };
