import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  afterEvent,
  BEGINNING,
  type Chapter,
  ChapterFinder,
  chapterText,
  KINDS,
  type ReplayEntry,
  type ReplayEvent,
  readEvent,
} from "../../shared/replay";

const SETTINGS = { ...BEGINNING.settings, answers: { shown: false, except: [] } };

function entry(sequence: number, participant: number, kind: string, body: unknown = {}): ReplayEntry {
  const bytes = body instanceof Uint8Array ? body : new TextEncoder().encode(JSON.stringify(body));
  return { sequence, time: sequence * 1000, participant, kind, bytes };
}

const right = { outcome: "right" };
const wrong = { outcome: "wrong", diagnosis: { code: "otherSign" } };
const NOTHING = { mistake: null, help: null };
const tried = (judgement: object, card = "V1", wanted = "Iy") => ({ wanted, card, text: "2 mA", judgement, count: 1 });

describe("an entry of a replay", () => {
  it("of a kind that is not known, or without what its kind has, is 'other' and keeps its place", () => {
    const strange = [
      entry(1, 1, "wave", { far: true }),
      entry(2, 1, "try", { wanted: 3 }),
      entry(3, 0, "look", []),
      entry(4, 1, "update", new Uint8Array()),
      entry(5, 1, "reveal", { change: { do: "setShown" } }),
      entry(6, 1, "call", { card: "total", wanted: null, center: [1], scale: 1 }),
      entry(7, 1, "question", { wanted: "Iy", card: "V1", count: 1, text: "Which?", deeds: ["leave V2 on"] }),
      entry(8, 1, "question", { wanted: "Iy", card: "V1", said: null }),
    ];
    expect(strange.map(readEvent)).toEqual(
      strange.map(({ sequence, time, participant, kind }) => ({
        sequence,
        time,
        participant,
        kind: "other",
        name: kind,
      })),
    );
  });

  it("is read whatever its bytes are", () => {
    const anything = fc.oneof(
      fc.uint8Array({ maxLength: 30 }),
      fc.json().map((text) => new TextEncoder().encode(text)),
    );
    fc.assert(
      fc.property(fc.constantFrom(...KINDS, "wave"), anything, (kind, bytes) => {
        const event = readEvent({ sequence: 9, time: 1, participant: 2, kind, bytes });
        expect(afterEvent(BEGINNING, event).sequence).toBe(9);
      }),
    );
  });
});

describe("a room at a moment", () => {
  const events = [
    entry(1, 1, "join"),
    entry(2, 2, "join"),
    entry(3, 2, "look", { card: "V1", wanted: "w1" }),
    entry(4, 2, "try", tried(wrong)),
    entry(5, 1, "reveal", { change: { do: "setAnswers", shown: false }, settings: SETTINGS }),
    entry(6, 2, "look", { card: "total", wanted: "w1" }),
    entry(7, 2, "try", tried(right)),
    entry(8, 1, "call", { card: "V1", wanted: null, center: [1, 2], scale: 1 }),
    entry(9, 2, "leave"),
  ].map(readEvent);
  const momentAt = (sequence: number) => events.slice(0, sequence).reduce(afterEvent, BEGINNING);

  it("knows who is there and what each looks at", () => {
    expect(momentAt(3)).toMatchObject({ here: [1, 2], looks: [{ participant: 2, card: "V1", wanted: "w1" }] });
    expect(momentAt(6).looks).toEqual([{ participant: 2, card: "total", wanted: "w1" }]);
    expect(momentAt(9)).toMatchObject({ here: [1], looks: [], sequence: 9, time: 9000 });
  });

  it("has the newest try of each card", () => {
    expect(momentAt(5).tries).toEqual([{ ...tried(wrong), ...NOTHING, participant: 2, time: 4000 }]);
    expect(momentAt(7).tries).toEqual([{ ...tried(right), ...NOTHING, participant: 2, time: 7000 }]);
  });

  it("has the rungs and the reason of the try that they are about, and of no other", () => {
    const rung = { text: "Look at V1.", parts: ["V1"], nodes: ["a"] };
    const help = { rungs: [{ ...rung, text: "Signs." }], questions: [], reason: { participant: 2, text: "hm" } };
    const about = { wanted: "Iy", card: "V1", count: 1 };
    const triesAfter = (...entries: readonly ReplayEntry[]) =>
      entries.map(readEvent).reduce(afterEvent, BEGINNING).tries;
    const made = entry(1, 2, "try", { ...tried(wrong), help });
    expect(triesAfter(made)[0]?.help).toEqual(help);
    expect(triesAfter(made, entry(2, 2, "help", { ...about, ...rung }))[0]?.help?.rungs).toEqual([...help.rungs, rung]);
    expect(triesAfter(made, entry(2, 3, "reason", { ...about, text: "why" }))[0]?.help?.reason).toEqual({
      participant: 3,
      text: "why",
    });
    for (const other of [{ count: 2 }, { card: "V2" }, { wanted: "Ix" }]) {
      expect(triesAfter(made, entry(2, 2, "help", { ...about, ...rung, ...other }))[0]?.help).toEqual(help);
    }
  });

  it("has the questions that were put about a try, each with what was said to it by whoever answered", () => {
    const about = { wanted: "Iy", card: "V1", count: 1 };
    const words = (text: string) => ({ text, deeds: ["leave V2 on", "zero V1"] });
    const events = [
      entry(1, 2, "try", tried(wrong)),
      entry(2, 2, "question", { ...about, ...words("Which?") }),
      entry(3, 3, "question", { ...about, said: { deed: null } }),
      entry(4, 2, "question", { ...about, ...words("And of these?") }),
      entry(5, 3, "question", { ...about, count: 2, said: null }),
      entry(6, 2, "question", { ...about, said: null }),
      entry(7, 2, "try", { ...tried(wrong), count: 2 }),
    ].map(readEvent);
    const questionsAt = (sequence: number) =>
      events.slice(0, sequence).reduce(afterEvent, BEGINNING).tries[0]?.help?.questions;
    const first = { ...words("Which?"), answer: { participant: 3, said: { deed: null } } };
    expect(questionsAt(2)).toEqual([{ ...words("Which?"), answer: null }]);
    expect(questionsAt(3)).toEqual([first]);
    expect(questionsAt(5)).toEqual([first, { ...words("And of these?"), answer: null }]);
    expect(questionsAt(6)?.[1]?.answer).toEqual({ participant: 2, said: null });
    expect(questionsAt(7)).toBeUndefined();
  });

  it("has the newest zeroing of each card and all lines, with their rungs", () => {
    const zeroing = (count: number, outcome: string) => {
      return { step: "zeroing", card: "V1", count, decisions: { V2: "open" }, outcome };
    };
    const line = { step: "line", card: "V1", count: 1, text: "Iy = I_R4", told: { outcome: "true" } };
    const rung = { text: "Look at V2.", parts: ["V2"], nodes: [] };
    const events = [
      entry(1, 2, "try", zeroing(1, "wrong")),
      entry(2, 2, "help", { step: "zeroing", card: "V1", count: 1, ...rung }),
      entry(3, 2, "try", line),
      entry(4, 2, "reason", { step: "line", card: "V1", count: 1, text: "why" }),
      entry(5, 3, "try", zeroing(2, "right")),
    ].map(readEvent);
    const at = (sequence: number) => events.slice(0, sequence).reduce(afterEvent, BEGINNING).steps;
    const none = { rungs: [], questions: [], reason: null };
    const first = { ...zeroing(1, "wrong"), participant: 2, time: 1000 };
    expect(at(2)).toEqual([{ ...first, help: { ...none, rungs: [rung] } }]);
    expect(at(4)[1]).toEqual({
      ...{ ...line, participant: 2, time: 3000 },
      help: { ...none, reason: { participant: 2, text: "why" } },
    });
    expect(at(5).map(({ step, count, help }) => [step, count, help !== null])).toEqual([
      ["line", 1, true],
      ["zeroing", 2, false],
    ]);
  });

  it("has the settings of then, and the last call", () => {
    expect(momentAt(4).settings.answers.shown).toBe(true);
    expect(momentAt(5).settings.answers.shown).toBe(false);
    expect(momentAt(7).call).toBeNull();
    expect(momentAt(8).call).toMatchObject({ participant: 1, view: { card: "V1" } });
  });
});

describe("chapters", () => {
  const chaptersOf = (...entries: readonly ReplayEntry[]): readonly Chapter[] => {
    const finder = new ChapterFinder();
    for (const event of entries.map(readEvent)) finder.take(event as ReplayEvent);
    return finder.chapters;
  };
  const begun = (...entries: readonly ReplayEntry[]) =>
    chaptersOf(...entries).map(({ sequence, subject }) => [sequence, subject.code]);

  it("begin when the circuit first answers, and again when it answers something else", () => {
    const solved = (sequence: number, ...wanted: string[]) => entry(sequence, 0, "solved", { wanted });
    expect(begun(solved(1, "Iy"), solved(2, "Iy"), solved(3, "Iy", "Vx"))).toEqual([
      [1, "solved"],
      [3, "solved"],
    ]);
  });

  it("begin when an addend is opened for the first time by anybody; the total is no addend", () => {
    const look = (sequence: number, who: number, card: string) => entry(sequence, who, "look", { card, wanted: null });
    expect(
      begun(look(1, 1, "total"), look(2, 1, "V1"), look(3, 2, "V1"), look(4, 2, "I1+V1"), look(5, 1, "V1+I1")),
    ).toEqual([
      [2, "opened"],
      [4, "opened"],
    ]);
  });

  it("begin with each wrong line, and with the right one that mends it", () => {
    const made = [
      entry(1, 2, "try", tried(wrong)),
      entry(2, 3, "try", tried(wrong, "V2")),
      entry(3, 2, "try", tried(wrong)),
      entry(4, 2, "try", tried(right)),
      entry(5, 2, "try", tried(right)),
    ];
    expect(begun(...made)).toEqual([
      [1, "wrong"],
      [2, "wrong"],
      [3, "wrong"],
      [4, "mended"],
    ]);
    expect(chaptersOf(...made).at(-1)?.subject).toMatchObject({ card: "V1", participant: 2, wrong: 3 });
  });

  it("begin with each wrong zeroing and false line as well, which are mended by one of their own kind", () => {
    const zeroed = (sequence: number, outcome: string) =>
      entry(sequence, 2, "try", { step: "zeroing", card: "V1", count: sequence, decisions: { V2: "open" }, outcome });
    const line = (sequence: number, outcome: string) =>
      entry(sequence, 3, "try", { step: "line", card: "V1", count: sequence, text: "Iy = I_R4", told: { outcome } });
    const made = [zeroed(1, "wrong"), line(2, "entered"), line(3, "false"), entry(4, 2, "try", tried(right))];
    const found = chaptersOf(...made, line(5, "trueButEmpty"), line(6, "true"), zeroed(7, "right"), line(8, "true"));
    expect(found.map((chapter) => [chapter.id, chapterText(chapter, (number) => `learner ${number}`)])).toEqual([
      ["wrong 1", "learner 2: sources not zeroed right for the addend of V1"],
      ["wrong 3", "learner 3: a false line for the addend of V1"],
      ["mended 6", "learner 3: line for the addend of V1 mended"],
      ["mended 7", "learner 2: sources for the addend of V1 mended"],
    ]);
  });

  it("begin where answers are shown, by themselves or with lines that tell them, not where they are hidden", () => {
    const setting = (sequence: number, change: object) => entry(sequence, 1, "reveal", { change, settings: SETTINGS });
    expect(
      chaptersOf(
        setting(1, { do: "setShown", card: "V1", shown: true }),
        setting(2, { do: "setShown", card: "V1", shown: false }),
        setting(3, { do: "setAnswers", shown: true }),
        setting(4, { do: "showLines", wanted: "Iy", card: "V1", lines: 2, reveals: [] }),
        setting(5, { do: "showLines", wanted: "Iy", card: "V2", lines: "all", reveals: ["V2"] }),
        setting(6, { do: "showAllLines", shown: true }),
      ).map(({ sequence, subject }) => [sequence, subject]),
    ).toEqual([
      [1, { code: "revealed", cards: ["V1"] }],
      [3, { code: "revealed", cards: [] }],
      [5, { code: "revealed", cards: ["V2"] }],
      [6, { code: "revealed", cards: [] }],
    ]);
  });

  it("stay as an instructor left them: renamed, removed, added at an earlier moment", () => {
    const found = chaptersOf(
      entry(1, 2, "try", tried(wrong)),
      entry(2, 2, "try", tried(right)),
      entry(3, 1, "chapter", { do: "rename", id: "wrong 1", title: "A turned sign" }),
      entry(4, 1, "chapter", { do: "remove", id: "mended 2" }),
      entry(5, 1, "chapter", { do: "add", id: "added 5", at: 1, title: "Here it begins" }),
      entry(6, 1, "chapter", { do: "rename", id: "added 5", title: "It begins" }),
      entry(7, 1, "chapter", { do: "rename", id: "nothing", title: "Nowhere" }),
    );
    expect(found.map((chapter) => [chapter.sequence, chapterText(chapter, () => "")])).toEqual([
      [1, "A turned sign"],
      [1, "It begins"],
    ]);
  });

  it("are called by what begins there", () => {
    const texts = chaptersOf(
      entry(1, 0, "solved", { wanted: ["Iy", "Vx"] }),
      entry(2, 2, "look", { card: "V1", wanted: null }),
      entry(3, 2, "look", { card: "I1+V1", wanted: null }),
      entry(4, 2, "try", tried(wrong, "total")),
      entry(5, 2, "try", tried(right, "total")),
      entry(6, 1, "reveal", { change: { do: "setShown", card: "V1", shown: true }, settings: SETTINGS }),
      entry(7, 1, "reveal", { change: { do: "setAnswers", shown: true }, settings: SETTINGS }),
    ).map((chapter) => chapterText(chapter, (number) => `learner ${number}`));
    expect(texts).toEqual([
      "The circuit gives Iy and Vx",
      "The addend of V1 opened",
      "I1 and V1 together opened",
      "learner 2: a wrong value for the total",
      "learner 2: the total mended",
      "The addend of V1 shown",
      "All answers shown",
    ]);
  });
});
