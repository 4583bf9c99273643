import { expect, it } from "vitest";
import type { Try, TryHelp } from "../../shared/messages";
import { type HelpActs, isToTry, lastTry, type SumCard } from "../../src/sum";
import { helpWord } from "../../src/sum/cardTries";
import { toldText } from "../../src/sum/tryWords";

const card = (key: string, isHidden = true) => ({ key, isHidden }) as SumCard;
const made = (part: Partial<Try>): Try => ({
  wanted: "Iy",
  card: "V1",
  text: "1 mA",
  participant: "ann",
  name: "Ann",
  time: 1,
  judgement: { outcome: "right" },
  help: null,
  count: 2,
  isOutdated: false,
  ...part,
});
const people = {
  you: { id: "ben", name: "Ben" },
  participants: [
    { id: "ann", name: "Ann Lee" },
    { id: "ben", name: "Ben" },
  ],
};

it("the newest try at a card is that of the quantity in focus, by the name that its author has now", () => {
  const tries = [made({ wanted: "Iz", text: "9 mA" }), made({}), made({ card: "I1+V1", participant: "ben" })];
  expect(lastTry(tries, "Iy", card("V1"), people)).toMatchObject({ text: "1 mA", who: "Ann Lee", isOwn: false });
  expect(lastTry(tries, "Iy", card("V1+I1"), people)).toMatchObject({ who: "You", isOwn: true });
  expect(lastTry(tries, "Iy", card("V2"), people)).toBeNull();
  expect(lastTry([made({ participant: "gone", name: "Cem" })], "Iy", card("V1"), people)?.who).toBe("Cem");
});

it("a value is tried where its answer is hidden, by anybody but an observer, until the room ends", () => {
  expect(isToTry("current", card("V1"), "learner", false)).toBe(true);
  expect(isToTry("current", card("V1"), "instructor", false)).toBe(true);
  expect(isToTry("current", card("V1"), "observer", false)).toBe(false);
  expect(isToTry("current", card("V1"), null, false)).toBe(false);
  expect(isToTry("current", card("V1"), "learner", true)).toBe(false);
  expect(isToTry("current", card("V1", false), "learner", false)).toBe(false);
  // A Thévenin equivalent is two values, of which no card has one.
  expect(isToTry("thevenin", card("total"), "learner", false)).toBe(false);
  expect(isToTry("resistance", card("total"), "learner", false)).toBe(true);
});

it("a card says what there is to do about its help: ask, answer, give the reason or read, and nothing where there is none", () => {
  const help: TryHelp = { rungs: [], hasMore: true, question: null, reason: { state: "notAsked" } };
  const rung = { text: "Look at R1.", parts: ["R1"], nodes: [] };
  const word = (given: TryHelp | null, acts: object | null = { giveReason: () => {} }) => {
    const last = lastTry([made({ help: given })], "Iy", card("V1"), people);
    return helpWord({ last, help: acts as HelpActs | null });
  };
  expect(word(help)).toBe("Ask for help");
  expect(word({ ...help, hasMore: false, question: { text: "Did you?", deeds: ["a", "b"] } })).toBe(
    "Answer the question",
  );
  expect(word({ ...help, rungs: [rung] })).toBe("Read the help");
  const asked: TryHelp = { ...help, rungs: [rung], hasMore: false, reason: { state: "asked" } };
  expect(word(asked)).toBe("Say why");
  // An instructor reads the reason, and has none to give.
  expect(word(asked, { giveReason: null })).toBe("Read the help");
  expect(word({ ...help, hasMore: false })).toBeNull();
  expect(word(null)).toBeNull();
  expect(word(help, null)).toBeNull();
});

it("nothing is said of a wrong value that a mistake explains, nor of one that is not handed in, but that it is so", () => {
  expect(toldText({ outcome: "wrong", diagnosis: null })).toBe("Not right yet.");
  expect(toldText({ outcome: "entered" })).toBe("Entered, not handed in yet.");
  expect(toldText({ outcome: "wrong", diagnosis: { code: "unlike" } })).toBe("This is not the answer.");
  expect(toldText({ outcome: "right" })).toBe("Right.");
});
