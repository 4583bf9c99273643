import type { PartId } from "../../circuit";

/** In adding the addends up. */
const SUM_CODES = [
  "addendForgotten",
  "addendSignTurned",
  "signsIgnored",
  "sourceCountedTwice",
  "powersAdded",
  "magnitudesAdded",
  "frequenciesMixed",
] as const;

/** In writing mesh equations, and reading a current off mesh currents. */
const MESH_CODES = [
  "loopTermTurned",
  "loopTermMissing",
  "mutualTermTurned",
  "mutualTermMissing",
  "sourceVoltageMissing",
  "meshForBranch",
] as const;

/**
 * What somebody can do wrong on the way to a value, the least surprising first: where two explain a value equally well,
 * this order decides which is named first. Each changes the circuit, its equations, the sum or the value itself.
 */
export const MISTAKE_CODES = [
  ...SUM_CODES,
  // The reference direction and the sources.
  "signTurned",
  "polarityTurned",
  "sourceLeftOn",
  "everySourceLeftOn",
  "voltageSourceOpened",
  "currentSourceShorted",
  "zeroingSwapped",
  "actingZeroed",
  "dependentZeroed",
  "dependentFrozen",
  "sourcesLeftOnInEquivalent",
  // Division, and parts taken together.
  "divisionTurned",
  "undivided",
  "divisionUpsideDown",
  "otherBranchesSummed",
  "oneOtherBranch",
  "equivalentOverSum",
  "evenSplit",
  "parallelAsSeries",
  "seriesAsParallel",
  "sourceForEquivalent",
  // Alternating current.
  "peakAndRms",
  "peakToPeak",
  "conjugated",
  "reactanceSignTurned",
  "capacitorInverted",
  "reactanceAsResistance",
  "hertzAsRadians",
  "otherFrequency",
  "sourcePhaseMissing",
  "sineAsCosine",
  "degreesAsRadians",
  "capacitorsLikeResistors",
  "reactiveSwapped",
  // Numbers.
  "prefixSlip",
  // Parts that count and parts that don't.
  "seriesPartOfCurrentSource",
  "parallelPartOfVoltageSource",
  "partDropped",
  "falseSeries",
  "falseParallel",
  // Node equations.
  "lawTermTurned",
  "lawTermMissing",
  "neighbourMissing",
  "sourceCurrentMissing",
  ...MESH_CODES,
  // What makes a part thousands of times larger or smaller is, to a few figures, often one that leaves it out.
  "sumOfReciprocals",
  "inputPrefixSlip",
] as const;

export type MistakeCode = (typeof MISTAKE_CODES)[number];

/** Those in the sum of the addends. */
export const IN_SUM: ReadonlySet<MistakeCode> = new Set(SUM_CODES);

/** Those of mesh equations, which are looked for only where none of another kind leads to a value. */
export const OF_MESHES: ReadonlySet<MistakeCode> = new Set(MESH_CODES);

/** A mistake with what it was made on. Plain data. */
export type Mistake = {
  readonly code: MistakeCode;
  /** The parts that it was made on; for those of the sum, the sources of the addends. */
  readonly parts: readonly PartId[];
  /** Where it is made in an equation: the node; else null. */
  readonly node: string | null;
};

export function mistake(code: MistakeCode, parts: readonly PartId[] = [], node: string | null = null): Mistake {
  return { code, parts, node };
}

/** How surprising a mistake is: its place in {@link MISTAKE_CODES}. */
export function surpriseOf({ code }: Mistake): number {
  return MISTAKE_CODES.indexOf(code);
}
