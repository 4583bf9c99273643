import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { cutWorkings, hideAnswers, type WholeWorkings, wholeWorkings } from "../../../server/access";
import {
  isShown,
  linesOf,
  type ShownAnswers,
  type ShownLines,
  TOTAL_CARD,
  type Workings,
} from "../../../shared/messages";
import { eachAlone, type Report, type Shown, solveReport } from "../../../shared/solve";
import { circuits, EVERY_PART } from "../../generators/circuits";
import { circuitOf } from "../../solve/solved";
import { awkward, groupsFrom, wholeOf } from "./awkward";

/** What of a random circuit is shown; cards and wanted quantities are picked by number once they are known. */
type Plan = {
  readonly groups: readonly number[];
  readonly answers: { readonly shown: boolean; readonly except: readonly number[] };
  readonly lines: { readonly shown: boolean; readonly except: readonly (readonly [card: number, lines: number])[] };
};

const plan: fc.Arbitrary<Plan> = fc.record({
  groups: fc.array(fc.nat(15), { maxLength: 2 }),
  answers: fc.record({ shown: fc.boolean(), except: fc.array(fc.nat(9), { maxLength: 3 }) }),
  lines: fc.record({
    shown: fc.boolean(),
    except: fc.array(fc.tuple(fc.nat(99), fc.nat(12)), { maxLength: 8 }),
  }),
});

function settingOf(whole: WholeWorkings, { answers, lines }: Plan): { answers: ShownAnswers; lines: ShownLines } {
  const cards = [...whole.cards, TOTAL_CARD];
  const places = whole.workings.flatMap(({ wanted, cards: own }) => own.map(({ card }) => ({ wanted, card })));
  const at = <T>(list: readonly T[], index: number) => list[index % list.length] as T;
  return {
    answers: { shown: answers.shown, except: [...new Set(answers.except.map((index) => at(cards, index)))] },
    lines: {
      shown: lines.shown,
      except: places.length === 0 ? [] : lines.except.map(([index, count]) => ({ ...at(places, index), lines: count })),
    },
  };
}

const showingOf = ({ answers, lines }: { answers: ShownAnswers; lines: ShownLines }) => ({
  isShown: (card: string) => isShown(answers, card),
  linesOf: (wanted: string, card: string) => linesOf(lines, wanted, card),
});

/** Every answer in a report, by the card that it is hidden with. */
function answersOf(report: Report): { card: string; value: Shown }[] {
  return report.wanted.flatMap(({ addends, total, components }) => [
    ...addends.map(({ sources, value }) => ({ card: [...sources].sort().join("+"), value })),
    ...[total, ...components.map(({ value }) => value)].flatMap((value) =>
      value ? [{ card: TOTAL_CARD, value }] : [],
    ),
  ]);
}

/** Whether a text has the number, of either sign, standing by itself. */
function says(text: string, { text: number, exact }: Shown): boolean {
  const escaped = number.replace(/^−/, "").replace(/[.*+?^${}()|[\]\\]/g, "\\$&");
  const isWritten = new RegExp(`(?<![\\d.,/])${escaped}(?![\\p{L}\\d])`, "u").test(text);
  const fraction = exact?.replace(/^-/, "");
  return isWritten || (fraction !== undefined && (text.includes(`"${fraction}"`) || text.includes(`"-${fraction}"`)));
}

const sent = (workings: Workings) =>
  workings.workings.flatMap(({ wanted, cards }) => cards.map((card) => ({ wanted, card })));
const RUNS = { numRuns: 60 };

describe("what learners are sent of the worked lines, for random circuits, groups and settings", () => {
  let tried = 0;

  it("has no hidden answer in it, in figures or as a fraction, of either sign", { timeout: 120_000 }, () => {
    fc.assert(
      fc.property(circuits(EVERY_PART, 8), plan, (json, chosen) => {
        const circuitJson = awkward(json);
        const circuit = circuitOf(circuitJson);
        const groups = groupsFrom(circuit, chosen.groups);
        const whole = wholeOf(circuitJson, groups);
        const setting = settingOf(whole, chosen);
        const report = solveReport(circuit, { groups: [...eachAlone(circuit), ...groups] });
        const hiddenReport = hideAnswers(report, (card) => isShown(setting.answers, card));
        const text = JSON.stringify(cutWorkings(whole, showingOf(setting)));
        const known = JSON.stringify([hiddenReport, circuitJson.elements]);
        for (const { card, value } of answersOf(report)) {
          if (!hiddenReport.hidden.includes(card) || value.exact === "0" || says(known, value)) continue;
          tried++;
          expect([card, value.text, says(text, value)]).toEqual([card, value.text, false]);
        }
      }),
      RUNS,
    );
    expect(tried).toBeGreaterThan(RUNS.numRuns);
  });

  it("is, of each card, the first lines and no more than are shown, with their own sketches", () => {
    fc.assert(
      fc.property(circuits(EVERY_PART, 8), plan, (json, chosen) => {
        const whole = wholeOf(json, groupsFrom(circuitOf(json), chosen.groups));
        const setting = settingOf(whole, chosen);
        const cut = cutWorkings(whole, showingOf(setting));
        const all = sent(wholeWorkings(whole, showingOf(setting)));
        for (const [index, { wanted, card }] of sent(cut).entries()) {
          const { lines, sketches, result } = card.derivation;
          const full = all[index]?.card;
          const asked = linesOf(setting.lines, wanted, card.card);
          expect(lines).toEqual(full?.derivation.lines.slice(0, lines.length));
          expect(lines.length).toBeLessThanOrEqual(asked === "all" ? Number.POSITIVE_INFINITY : asked);
          expect([card.shownLines, card.lineCount]).toEqual([lines.length, null]);
          expect([full?.shownLines, full?.lineCount]).toEqual([lines.length, full?.derivation.lines.length]);
          const used = lines.flatMap(({ sketch }) => (sketch === null ? [] : [sketch]));
          expect(sketches).toEqual(full?.derivation.sketches.slice(0, sketches.length));
          expect(sketches.length).toBe(
            used.length === 0 && lines.length < (full?.lineCount ?? 0)
              ? 0
              : Math.max(0, ...used.map((each) => each + 1)),
          );
          if (lines.length < (full?.lineCount ?? 0)) expect(result).toBeNull();
        }
      }),
      RUNS,
    );
  });

  it("has no line of a total, no second method and no powers while any answer is hidden", () => {
    fc.assert(
      fc.property(circuits(EVERY_PART, 8), plan, (json, chosen) => {
        const whole = wholeOf(json, groupsFrom(circuitOf(json), chosen.groups));
        const setting = settingOf(whole, chosen);
        const cut = cutWorkings(whole, showingOf(setting));
        if ([...whole.cards, TOTAL_CARD].every((card) => isShown(setting.answers, card))) return;
        expect(cut.powerTable).toBeNull();
        for (const { cards, secondMethods } of cut.workings) {
          expect(secondMethods).toBeNull();
          expect(cards.at(-1)).toMatchObject({
            card: TOTAL_CARD,
            shownLines: 0,
            derivation: { lines: [], sketches: [], result: null },
          });
        }
      }),
      RUNS,
    );
  });

  it("is everything where all answers and all lines are shown", () => {
    fc.assert(
      fc.property(circuits(EVERY_PART, 8), (json) => {
        const whole = wholeOf(json, []);
        const showing = { isShown: () => true, linesOf: () => "all" as const };
        const cut = cutWorkings(whole, showing);
        const told = wholeWorkings(whole, showing);
        const withCounts = cut.workings.map((working) => ({
          ...working,
          cards: working.cards.map((card) => ({ ...card, lineCount: card.derivation.lines.length })),
        }));
        expect({ ...cut, workings: withCounts }).toEqual(told);
      }),
      RUNS,
    );
  });
});
