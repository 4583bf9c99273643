import { ITSELF, type Tally, tiesOf } from "./tally";

/**
 * Why two mistakes often lead to one value, though the values of parts are all different: no value that is entered tells
 * them apart. Worked out from the circuits, common practice, no source.
 */
const REASONS: readonly (readonly [codes: string, reason: string])[] = [
  ["addendSignTurned, polarityTurned", "a source turned round turns its addend and nothing else"],
  ["addendSignTurned, signsIgnored", "one addend alone runs against the reference direction"],
  ["polarityTurned, signsIgnored", "one source alone drives against the reference direction"],
  ["signTurned, signsIgnored", "all addends run against the reference direction"],
  ["partDropped, voltageSourceOpened", "a resistor in series with the source goes with it"],
  ["falseSeries, voltageSourceOpened", "of three branches at a node the third is left without a current"],
  [
    "falseParallel, voltageSourceOpened",
    "the resistor that stays does not count, and the one that goes is the source's",
  ],
  ["currentSourceShorted, partDropped", "the resistor beside the source is shorted with it"],
  ["currentSourceShorted, zeroingSwapped", "with the short in place the open changes nothing more"],
  ["voltageSourceOpened, zeroingSwapped", "with the open in place the short changes nothing more"],
  [
    "partDropped, zeroingSwapped",
    "the resistor beside one of the sources goes with it, and the other one changes nothing more",
  ],
  ["dependentZeroed, partDropped", "a resistor in series with the dependent source goes with it"],
  [
    "dependentZeroed, falseParallel",
    "the source's resistor is left in parallel with the other one, or goes where the other one does not count",
  ],
  ["partDropped, sourcesLeftOnInEquivalent", "a resistor in series with the source, or beside it, goes with it"],
  ["otherBranchesSummed, parallelAsSeries", "the sum of the others on top is their equivalent, taken in series"],
  ["undivided, voltageSourceOpened", "the other branch is the source's, and is opened with it"],
  ["partDropped, undivided", "the one other branch, or part of the row, is the one that is left out"],
  ["oneOtherBranch, partDropped", "a division between two of three branches leaves the third out"],
  ["partDropped, sourceForEquivalent", "without the resistor nothing is between the source and the two nodes"],
  ["conjugated, reactanceSignTurned", "all reactances are turned, and no source has a phase"],
  [
    "partDropped, reactiveSwapped",
    "a resistor in series with the part that is opened goes with it, or one beside a part that is shorted",
  ],
  [
    "falseParallel, reactiveSwapped",
    "the part's resistor is left in parallel with the other one, or goes where the other one does not count",
  ],
  ["falseSeries, partDropped", "of three branches at a node the third is left without a current"],
  ["falseParallel, partDropped", "the resistor that stays does not count, so that only the other one's going does"],
  ["falseSeries, itself on other parts", "it does not matter which resistor of a row it is"],
  ["falseParallel, itself on other parts", "it does not matter which resistor of a row it is"],
];

/** Equations with a term left out, or turned round. */
const LEFT_OUT_OF_A_LAW = [
  "lawTermMissing",
  "neighbourMissing",
  "sourceCurrentMissing",
  "loopTermMissing",
  "mutualTermMissing",
  "sourceVoltageMissing",
  "meshForBranch",
];
const TURNED_IN_A_LAW = ["lawTermTurned", "loopTermTurned", "mutualTermTurned"];
/** What has the same effect as a term left out, and as one turned round, where nothing else of the part counts. */
const LEFT_OUT = [
  ...LEFT_OUT_OF_A_LAW,
  "addendForgotten",
  "voltageSourceOpened",
  "currentSourceShorted",
  "zeroingSwapped",
  "undivided",
  "oneOtherBranch",
  "reactiveSwapped",
  "partDropped",
  "falseSeries",
  "falseParallel",
];
const TURNED = [...TURNED_IN_A_LAW, "addendSignTurned", "polarityTurned", "signsIgnored", "signTurned"];

/** What 0 is explained by: everything that leaves what is asked for without a source. */
const NOTHING_ACTS = "nothing drives what is asked for either way, so that the value is 0";

/** The share of a mistake's cases from which on a tie is frequent. */
const OFTEN = 0.2;

/** Two mistakes that lead to one value in many circuits, and the reason; null where none is known. */
export type Tie = {
  readonly codes: string;
  /** The one whose cases are counted. */
  readonly code: string;
  readonly times: number;
  readonly of: number;
  readonly reason: string | null;
};

/** The pairs of mistakes that tie often, each once for each of the two of which that is so. */
export function frequentTies(tallies: readonly Tally[]): readonly Tie[] {
  return tallies.flatMap((tally) => {
    const frequent = tiesOf(tally, true).filter(([, times]) => times >= OFTEN * tally.trials.length);
    return frequent.map(([other, times]) => {
      const isItself = other === ITSELF;
      const codes = isItself ? `${tally.code}, ${other}` : [tally.code, other].sort().join(", ");
      return { codes, code: tally.code, times, of: tally.trials.length, reason: reasonFor(codes) };
    });
  });
}

function reasonFor(codes: string): string | null {
  const known = REASONS.find(([pair]) => pair === codes)?.[1];
  if (known !== undefined) return known;
  const both = codes.split(", ").map((code, _, [first = ""]) => (code === ITSELF ? first : code));
  const are = (all: readonly string[], some: readonly string[]): boolean =>
    both.every((code) => all.includes(code)) && both.some((code) => some.includes(code));
  if (both.includes("actingZeroed")) return NOTHING_ACTS;
  if (are(LEFT_OUT, LEFT_OUT_OF_A_LAW))
    return "what is left out of the equation is what is left out of the circuit, or of the sum";
  return are(TURNED, TURNED_IN_A_LAW)
    ? "what is turned in the equation is what is turned in the sum, or at the source"
    : null;
}

/** Reasons for pairs that do not tie often. */
export function idleReasons(ties: readonly Tie[]): readonly string[] {
  return REASONS.map(([codes]) => codes).filter((codes) => !ties.some((tie) => tie.codes === codes));
}

export function tieText({ codes, code, times, of, reason }: Tie): string {
  return `${codes} in ${times} of ${of} cases of ${code}: ${reason ?? "no reason known"}`;
}
