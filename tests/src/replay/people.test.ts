import { describe, expect, it } from "vitest";
import {
  BEGINNING,
  type MadeStep,
  type MadeTry,
  type Outdated,
  type ReplayManifest,
  type ReplayQuestion,
} from "../../../shared/replay";
import { dayEnd, inDays } from "../../../src/replay/days";
import { firstToFollow, namer, peopleAt } from "../../../src/replay/replayPeople";
import { stepsThen, triesThen } from "../../../src/replay/triedThen";
import type { SumCard } from "../../../src/sum";

const participants: ReplayManifest["participants"] = [
  { number: 1, name: "learner 1", role: "learner" },
  { number: 2, name: "Ana", role: "instructor" },
  { number: 3, name: "Cem", role: "learner" },
];
const manifest = { participants, viewer: { as: "member", number: 3 } } as unknown as ReplayManifest;

describe("the people of a moment", () => {
  it("are those who were in the room, as they came, each with the card that they had opened", () => {
    const looks = [{ participant: 2, card: "V1", wanted: "w" }];
    const people = peopleAt({ ...BEGINNING, here: [3, 2, 9], looks }, manifest);
    expect(people.map(({ name, card, wanted, isYou }) => [name, card, wanted, isYou])).toEqual([
      ["Cem", "total", null, true],
      ["Ana", "V1", "w", false],
    ]);
  });

  it("have the marks that their numbers give them, whoever else is there", () => {
    const [cem] = peopleAt({ ...BEGINNING, here: [3] }, manifest);
    const [, alsoCem] = peopleAt({ ...BEGINNING, here: [1, 3] }, manifest);
    expect(cem?.mark).toEqual(alsoCem?.mark);
  });

  it("are followed from the first instructor on, else from whoever came first", () => {
    expect(firstToFollow(participants)).toBe(2);
    expect(firstToFollow(participants.filter(({ role }) => role === "learner"))).toBe(1);
    expect(firstToFollow([])).toBeNull();
  });
});

describe("the tries of a moment", () => {
  const made: MadeTry = {
    wanted: "Iy",
    card: "V1+I1",
    text: "20 mA",
    mistake: null,
    help: null,
    judgement: { outcome: "right" },
    count: 2,
    participant: 3,
    time: 0,
  };
  const card = (key: string) => ({ key }) as SumCard;
  const people = (you: number | null) => ({ you, nameOf: namer(participants) });

  it("stand at their card, whichever way its sources are written, by whoever made them", () => {
    expect(triesThen([made], "Iy", card("I1+V1"), people(null), null)?.last).toMatchObject({
      who: "Cem",
      text: "20 mA",
    });
    expect(triesThen([made], "Iy", card("I1+V1"), people(3), null)?.last).toMatchObject({ who: "You", isOwn: true });
    expect(triesThen([made], "Ix", card("I1+V1"), people(3), null)).toBeNull();
    expect(triesThen([made], "Iy", card("V1"), people(3), null)).toBeNull();
  });

  it("are out of date where the answers of the moment are others than those that they were judged by", () => {
    const outdated = (count: number) => ({ tries: [{ wanted: "Iy", card: "I1+V1", count }], steps: [], retold: [] });
    const isOutdated = (count: number) =>
      triesThen([made], "Iy", card("I1+V1"), people(3), outdated(count))?.last?.isOutdated;
    expect([isOutdated(2), isOutdated(1)]).toEqual([true, false]);
  });

  it("have the rungs that had been given, and whose reason it was", () => {
    const rung = { text: "Look at V1.", parts: ["V1"], nodes: [] };
    const help = { rungs: [rung], questions: [], reason: { participant: 3, text: "why" } };
    expect(triesThen([{ ...made, help }], "Iy", card("I1+V1"), people(null), null)?.last?.help).toEqual({
      rungs: [rung],
      hasMore: false,
      question: null,
      answered: [],
      reason: { state: "given", name: "Cem", text: "why" },
    });
  });

  it("have the question that stands, unless the circuit is another by now, and those that were answered", () => {
    const question = { text: "Did you?", deeds: ["leave V1 on", "turn I1"] } as const;
    const said = { deed: "turn I1" };
    const helpOf = (answer: ReplayQuestion["answer"], you: number | null = null, outdated: Outdated | null = null) => {
      const help = { rungs: [], questions: [{ ...question, answer }], reason: null };
      const wrong = { outcome: "wrong", diagnosis: null } as const;
      return triesThen([{ ...made, judgement: wrong, help }], "Iy", card("I1+V1"), people(you), outdated)?.last?.help;
    };
    expect(helpOf(null)).toMatchObject({ question, answered: [] });
    const outdated = { tries: [{ wanted: "Iy", card: "I1+V1", count: 2 }], steps: [], retold: [] };
    expect(helpOf(null, null, outdated)).toMatchObject({ question: null, answered: [] });
    const answered = (answer: ReplayQuestion["answer"], you: number | null = null) => {
      const help = helpOf(answer, you);
      expect(help?.question).toBeNull();
      return help?.answered?.map(({ who, choice }) => [who, choice]);
    };
    expect(answered({ participant: 2, said })).toEqual([["Ana", "turn I1"]]);
    expect(answered({ participant: 3, said: { deed: null } }, 3)).toEqual([["you", "neither of these"]]);
    expect(answered({ participant: 3, said: null })).toEqual([["Cem", null]]);
  });

  it("can't be added to", () => {
    expect(triesThen([made], "Iy", card("I1+V1"), people(3), null)).toMatchObject({ hand: null, help: null });
  });
});

describe("the steps of a moment", () => {
  const line: MadeStep = {
    ...{ step: "line", card: "V1", count: 1, text: "Iy = I_R4", told: { outcome: "true" } },
    ...{ help: null, participant: 3, time: 0 },
  };

  it("are zeroings and lines by whoever made them, and those out of date that are named so", () => {
    const zeroing: MadeStep = {
      ...{ step: "zeroing", card: "I1+V1", count: 2, decisions: { V2: "open" }, outcome: "wrong" },
      ...{ help: null, participant: 3, time: 0 },
    };
    const names = { you: null, nameOf: namer(participants) };
    const outdated: Outdated = { tries: [], steps: [{ step: "line", card: "V1", count: 1 }], retold: [] };
    const { zeroings, lines } = stepsThen([zeroing, line], names, outdated);
    expect(zeroings).toMatchObject([{ card: "I1+V1", decisions: { V2: "open" }, name: "Cem", isOutdated: false }]);
    expect(lines).toMatchObject([{ text: "Iy = I_R4", name: "Cem", isOutdated: true }]);
  });

  it("are without a line of which a session of another version says something that is not known here", () => {
    const strange = { ...line, told: { outcome: "guessed" } } as unknown as MadeStep;
    expect(stepsThen([strange, line], { you: 3, nameOf: namer(participants) }, null).lines).toHaveLength(1);
  });
});

describe("days of a date field", () => {
  it("are over a moment before the next one begins, in the reader's own place", () => {
    expect(dayEnd("2026-02-28")).toBe(new Date(2026, 2, 1).getTime() - 1);
    expect(dayEnd("28.2.2026")).toBeNull();
  });
  it("are counted over the ends of months and years", () => {
    expect(inDays(new Date(2026, 11, 30, 23, 59).getTime(), 3)).toBe("2027-01-02");
    expect(inDays(new Date(2026, 0, 5).getTime(), 0)).toBe("2026-01-05");
  });
});
