import { describe, expect, it } from "vitest";
import { MISTAKE_CODES, type MistakeCode } from "../../../shared/check/mistakes";
import { OF_MESHES } from "../../../shared/check/mistakes/mistake";
import { CASES, type Tally, tallyOf, tallyText } from "./tally";
import { frequentTies, idleReasons, tieText } from "./ties";
import { WAYS } from "./ways/index";
import type { Line } from "./ways/question";
import type { Way } from "./ways/way";

// Each mistake of the catalogue is made on random circuits where it applies, by equations and formulas of these tests
// alone (ways/). Its value is entered as a learner would: with a unit, rounded to four figures and then to three, through
// the reader of entries. The diagnosis has to name the mistake, on its parts, first in 90 % of the cases and within the
// first two in 98 %.
//
// How ties count: an explanation that leads to exactly the same value does not stand before the one that was made, since
// nothing in the value could tell the two apart; the room asks which it was. One that agrees only to the figures written
// does (but see BY_THOUSANDS). named.txt has both counts, with and without ties, and every tie.
//
// Left out: values that are the right one to 1 %, and values of 0 where a mistake does not always lead there: all that
// cuts a branch off does.

/**
 * Mistakes of which three figures tell too little: in a bridge some two hundred mistakes have values, a few of them agree
 * by chance to three figures, and one in mesh equations is not named behind one of another kind. These keep to 90 %.
 */
const TOLD_BY_FOUR_FIGURES: readonly MistakeCode[] = ["mutualTermTurned", "mutualTermMissing"];

/** Each of the last tests makes all the cases where it is run alone. */
const PATIENCE = { timeout: 300_000 };

const known = new Map<string, Tally>();
const tallied = (way: Way): Tally => {
  const tally = known.get(way.code) ?? tallyOf(way);
  known.set(way.code, tally);
  return tally;
};

const ADDENDS: readonly Line[] = ["addend", "group"];
const VALUES: readonly Line[] = ["addend", "group", "total"];
/** The lines on which a mistake can be made, where that is not every line. */
const ONLY_ON: Readonly<Partial<Record<string, readonly Line[]>>> = {
  addendForgotten: ["total"],
  addendSignTurned: ["total"],
  signsIgnored: ["total"],
  sourceCountedTwice: ["total"],
  powersAdded: ["total"],
  magnitudesAdded: ["total"],
  frequenciesMixed: ["total"],
  sourceForEquivalent: ["total"],
  polarityTurned: ["total", "group"],
  sourceLeftOn: ADDENDS,
  everySourceLeftOn: ADDENDS,
  voltageSourceOpened: ADDENDS,
  currentSourceShorted: ADDENDS,
  zeroingSwapped: ADDENDS,
  actingZeroed: ADDENDS,
  dependentFrozen: ADDENDS,
  otherFrequency: ADDENDS,
  sourcesLeftOnInEquivalent: ["equivalent"],
  signTurned: VALUES,
  peakAndRms: VALUES,
  peakToPeak: VALUES,
  sourcePhaseMissing: VALUES,
  sineAsCosine: VALUES,
  seriesPartOfCurrentSource: VALUES,
  parallelPartOfVoltageSource: VALUES,
  divisionTurned: VALUES,
  undivided: VALUES,
  divisionUpsideDown: VALUES,
  evenSplit: VALUES,
  equivalentOverSum: VALUES,
  otherBranchesSummed: VALUES,
  oneOtherBranch: VALUES,
  lawTermTurned: VALUES,
  lawTermMissing: VALUES,
  neighbourMissing: VALUES,
  sourceCurrentMissing: VALUES,
  loopTermTurned: VALUES,
  loopTermMissing: VALUES,
  mutualTermTurned: VALUES,
  mutualTermMissing: VALUES,
  sourceVoltageMissing: VALUES,
  meshForBranch: VALUES,
};

describe("a wrong value on random circuits", () => {
  it("has a way to be made for each mistake of the catalogue", () => {
    expect(WAYS.map(({ code }) => code).sort()).toEqual([...MISTAKE_CODES].sort());
  });

  it.each(WAYS)("is explained by $code where that was made", (way) => {
    const { trials, orTied, orTiedByThree } = tallied(way);
    expect(trials.length).toBe(CASES);
    // Those in mesh equations are not named where one of another kind leads to the value.
    const unexplained = trials.filter(({ found }) => !OF_MESHES.has(way.code) && !found.some(({ isMade }) => isMade));
    expect(unexplained.map(({ text }) => text)).toEqual([]);
    expect(orTied.first).toBeGreaterThanOrEqual(0.9 * CASES);
    expect(orTied.firstTwo).toBeGreaterThanOrEqual(0.98 * CASES);
    expect(orTiedByThree.first).toBeGreaterThanOrEqual(0.9 * CASES);
    const share = TOLD_BY_FOUR_FIGURES.includes(way.code) ? 0.9 : 0.98;
    expect(orTiedByThree.firstTwo).toBeGreaterThanOrEqual(share * CASES);
  });

  it("is only explained by mistakes that can be made on its line", PATIENCE, () => {
    const found = WAYS.flatMap((way) =>
      tallied(way).trials.flatMap(({ line, found: all }) => all.map((each) => ({ line, code: each.code }))),
    );
    const misplaced = found.filter(({ line, code }) => code in ONLY_ON && !ONLY_ON[code]?.includes(line));
    expect(misplaced).toEqual([]);
  });

  it("has a reason where two mistakes often lead to it", PATIENCE, () => {
    const ties = frequentTies(WAYS.map(tallied));
    expect(ties.filter(({ reason }) => reason === null)).toEqual([]);
    expect(idleReasons(ties)).toEqual([]);
  });

  it("is explained as often as is written down, with the ties that are written down", PATIENCE, async () => {
    const tallies = WAYS.map(tallied);
    const text = [
      ...tallies.map(tallyText),
      "",
      "Mistakes that often lead to one value; a question, or the lines before, tell which was made:",
      ...frequentTies(tallies).map(tieText),
    ];
    await expect(`${text.join("\n")}\n`).toMatchFileSnapshot("named.txt");
  });
});
