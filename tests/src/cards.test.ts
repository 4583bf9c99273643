import { describe, expect, it } from "vitest";
import { readBoard } from "../../shared/board";
import type { HiddenWanted } from "../../shared/messages";
import { chosenCard, sourceAccents, sumCards } from "../../src/sum";
import { drawn, TWO_SOURCES, wantCurrent } from "../board/builders";
import { reportOf } from "./builders";

const board = readBoard(drawn(...TWO_SOURCES, wantCurrent("Ix", "R3")));
const report = reportOf(board);
const cards = sumCards(report.wanted[0] as HiddenWanted, { ...report, hidden: [] }, sourceAccents(board), board);

describe("the cards of a sum", () => {
  // V1 alone: 12 V over 2 + 6 kΩ. I1 alone: 9 mA × 2/8.
  it("are one a source and the total, each with its value", () =>
    expect(cards.map((card) => [card.title, card.value?.text])).toEqual([
      ["I1 alone", "2.25 mA"],
      ["V1 alone", "1.5 mA"],
      ["All sources", "3.75 mA"],
    ]));

  it("carry primes in their order, and none on the total", () =>
    expect(cards.map((card) => card.primes)).toEqual([[1], [2], []]));

  it("carry the accent that their source has on the board", () =>
    expect(cards.map((card) => card.accent)).toEqual([0, 1, null]));

  it("are hidden where their value is, and not where it was found though their card is hidden", () => {
    const [wanted] = report.wanted;
    const addends = wanted?.addends.map((addend) => (addend.sources[0] === "V1" ? addend : { ...addend, value: null }));
    const found = { ...wanted, addends, total: null } as HiddenWanted;
    const hidden = ["I1", "V1", "total"];
    const shown = sumCards(found, { ...report, hidden }, sourceAccents(board), board);
    expect(shown.map((card) => [card.key, card.isHidden, card.value?.text])).toEqual([
      ["I1", true, undefined],
      ["V1", false, "1.5 mA"],
      ["total", true, undefined],
    ]);
  });

  it("fall back to the total where the chosen source is gone", () => {
    expect(chosenCard(cards, "V1")?.key).toBe("V1");
    expect(chosenCard(cards, "V9")?.key).toBe("total");
    expect(chosenCard([], "V1")).toBeNull();
  });
});
