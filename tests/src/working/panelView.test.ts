import { describe, expect, it } from "vitest";
import type { Answers, ShownAnswers } from "../../../shared/messages";
import {
  areMethodsShown,
  backStep,
  countText,
  emptyText,
  nextStep,
  type PanelQuestion,
  panelView,
  stepNote,
  stepOfKey,
} from "../../../src/working/panelView";
import { card, workingsWith } from "./workings";

const answers = (revision: number) => ({ revision }) as Answers;
const cards = [card("V1", 5, 2), card("I1+V1", 4, 0), card("total", 1, 0)];
const asked: PanelQuestion = {
  workings: workingsWith(cards),
  answers: answers(4),
  wanted: "Iy",
  card: "V1",
  sumCards: ["V1", "V1+I1", "total"],
};

const textOf = (question: Partial<PanelQuestion>) => {
  const view = panelView({ ...asked, ...question });
  return view.kind === "words" ? view.text : null;
};
const cardsOf = (question: Partial<PanelQuestion>) => {
  const view = panelView({ ...asked, ...question });
  return view.kind === "lines" ? view.cards.map((each) => each.card) : null;
};

describe("the panel of a card", () => {
  it("has the lines of that card, a group's by its sources in any order", () => {
    expect(cardsOf({})).toEqual(["V1"]);
    expect(cardsOf({ card: "V1+I1" })).toEqual(["I1+V1"]);
    expect(cardsOf({ card: "total" })).toEqual(["total"]);
  });

  it("of a total begins with the sources' lines where the sum line has no cards for them", () =>
    expect(cardsOf({ card: "total", sumCards: ["total"] })).toEqual(["V1", "I1+V1", "total"]));

  it("says what will stand there while nothing is wanted", () =>
    expect(textOf({ wanted: null })).toBe(
      "Once the board asks for a quantity that has an answer, this is where it is worked out, line by line.",
    ));

  it("says that lines are coming before they are there, and after a change that has another answer", () => {
    expect(textOf({ workings: null })).toBe("The lines are being worked out …");
    expect(textOf({ wanted: "Vq", answers: answers(5) })).toBe("The lines are being worked out …");
  });

  it("says that there is no answer to work out", () =>
    expect(textOf({ wanted: "Vq" })).toBe("There is no working for this quantity: it has no answer yet."));

  it("says why there are no lines", () => {
    const failed = (failure: NonNullable<ReturnType<typeof workingsWith>["failure"]>) =>
      textOf({ workings: workingsWith([], { workings: [], failure }) });
    expect(failed({ code: "tooLarge", bytes: 1e6 })).toContain("too many to be sent");
    expect(failed({ code: "overBudget", milliseconds: 3000 })).toContain("more than 3 s");
    expect(failed({ code: "failed", message: "x" })).toContain("defect of the program");
    expect(textOf({ card: "V9", workings: workingsWith([card("V1", 2, 2)]) })).toBe(
      "There are no worked lines for this card.",
    );
  });

  it("keeps lines that are not sent again for a newer board, since they are the same", () =>
    expect(panelView({ ...asked, answers: answers(9) })).toEqual(panelView(asked)));
});

describe("how many lines are shown", () => {
  it("is told to the instructor out of all, to the others alone", () => {
    expect(countText([card("V1", 5, 2)])).toBe("2 of 5 shown");
    expect(countText([card("V1", 5, 5)])).toBe("all 5 shown");
    expect(countText([card("V1", 5, 2, false)])).toBe("2 lines");
    expect(countText([card("V1", 5, 1, false)])).toBe("1 line");
  });

  it("goes on by one line, from card to card", () => {
    expect(nextStep([card("V1", 5, 2), card("total", 1, 0)])).toEqual({ card: "V1", lines: 3, isLast: false });
    expect(nextStep([card("V1", 5, 4), card("total", 1, 0)])).toEqual({ card: "V1", lines: 5, isLast: true });
    expect(nextStep([card("V1", 5, 5), card("total", 1, 0)])).toEqual({ card: "total", lines: 1, isLast: true });
    expect(nextStep([card("V1", 5, 5), card("total", 1, 1)])).toBeNull();
  });

  it("goes back by one line, from the last card that shows any", () => {
    expect(backStep([card("V1", 5, 5), card("total", 1, 1)])).toEqual({ card: "total", lines: 0 });
    expect(backStep([card("V1", 5, 5), card("total", 1, 0)])).toEqual({ card: "V1", lines: 4 });
    expect(backStep([card("V1", 5, 0)])).toBeNull();
  });

  it("is stepped with L, and Shift for one back", () => {
    expect(stepOfKey("l", false, [card("V1", 5, 2)])).toMatchObject({ card: "V1", lines: 3 });
    expect(stepOfKey("L", true, [card("V1", 5, 2)])).toEqual({ card: "V1", lines: 1 });
    expect(stepOfKey("k", false, [card("V1", 5, 2)])).toBeNull();
  });

  it("brings the second methods with the whole total", () => {
    expect(areMethodsShown(card("total", 2, 1))).toBe(false);
    expect(areMethodsShown(card("total", 2, 2))).toBe(true);
    expect(areMethodsShown(card("total", 0, 0))).toBe(false);
  });
});

describe("what is said besides", () => {
  const shown: ShownAnswers = { shown: true, except: [] };

  it("to a learner without lines: what to expect", () => {
    expect(emptyText({ card: card("V1", 5, 0, false), isHidden: false })).toBe(
      "No line is shown yet. Each line comes here when the instructor shows it.",
    );
    expect(emptyText({ card: card("V1", 5, 0, false), isHidden: true })).toContain("the answer is hidden too");
    expect(emptyText({ card: card("V1", 0, 0), isHidden: false })).toBe("There are no worked lines for this card.");
  });

  it("where the lines are too many to be written out", () => {
    const own = card("V1", 0, 0, false);
    const long = { ...own, derivation: { ...own.derivation, omitted: "too large" as const } };
    expect(emptyText({ card: long, isHidden: false })).toContain("too long to be written out");
    const failed = { ...own, derivation: { ...own.derivation, omitted: "failed" as const } };
    expect(emptyText({ card: failed, isHidden: false })).toBe("There are no worked lines for this card.");
  });

  it("to the instructor: that the last line reveals a hidden card", () => {
    const hidden: ShownAnswers = { shown: true, except: ["V1"] };
    expect(stepNote([card("V1", 5, 4)], hidden, ["V1 alone"])).toContain("reveals this card");
    expect(stepNote([card("V1", 5, 3)], hidden, ["V1 alone"])).toBeNull();
    expect(stepNote([card("V1", 5, 4)], shown, [])).toBeNull();
  });

  it("to the instructor: which addends come before the lines of the total", () =>
    expect(stepNote([card("total", 1, 0)], { shown: false, except: [] }, ["V1 alone", "I1 alone"])).toBe(
      "The lines of the total tell every addend. Reveal first: V1 alone, I1 alone.",
    ));
});
