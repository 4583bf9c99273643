import { describe, expect, it } from "vitest";
import { decideHelp } from "../../../server/check/decideHelp";
import { type HelpEvent, helpAfter, helped, helpWith } from "../../../server/check/keptHelp";
import type { KeptTry } from "../../../server/check/keptTry";
import { toldTry } from "../../../server/check/toldTry";
import type { Explanation, MistakeCode } from "../../../shared/check/mistakes";
import type { PartId } from "../../../shared/circuit";
import type { HelpAction } from "../../../shared/messages";

// Rung texts are not repeated here: which of them is given is told by the mistake and the rung's name.

const explained = (code: MistakeCode, ...parts: string[]): Explanation => ({
  mistakes: [{ code, parts: parts as PartId[], node: null }],
  addend: null,
});
const LEFT_ON = explained("sourceLeftOn", "V1");
const OPENED = explained("voltageSourceOpened", "V2");
const DROPPED = explained("partDropped", "R4");

const tried = (...explanations: readonly Explanation[]): KeptTry => ({
  wanted: "Iy",
  card: "I1",
  text: "40 mA",
  participant: "ann",
  name: "Ann",
  time: 1,
  judgement: { outcome: "wrong", diagnosis: { code: "size", factor: 2, sign: "turned" } },
  help: helpWith(explanations),
  count: 3,
  answer: "-1/50 A",
});
const NOW = { isOutdated: false, timeAt: () => undefined };
const meant = { wanted: "Iy", card: "I1", count: 3 };
const ben = { participant: "ben", name: "Ben" };
const ask = (given: number): HelpAction => ({ do: "askHelp", ...meant, given });
const choose = (choice: 0 | 1 | "neither"): HelpAction => ({ do: "answerQuestion", ...meant, choice });
const say = (text: string): HelpAction => ({ do: "giveReason", ...meant, text });

/** The events of one request after the other, and the try after them. */
function asking(kept: KeptTry, ...actions: readonly HelpAction[]) {
  const events: HelpEvent[] = [];
  for (const action of actions) {
    const decision = decideHelp(kept, false, action, ben);
    if (decision.outcome === "refused") throw new Error(`refused: ${decision.why}`);
    events.push(...decision.events);
    for (const event of decision.events) kept = { ...kept, help: kept.help && helped(kept.help, event) };
  }
  return { kept, events, told: toldTry(kept, NOW, "other") };
}
const refusal = (kept: KeptTry | undefined, action: HelpAction, isOutdated = false) => {
  const decision = decideHelp(kept, isOutdated, action, ben);
  return decision.outcome === "refused" ? decision.why : null;
};
const rungsOf = (events: readonly HelpEvent[]) =>
  events.flatMap((event) => (event.did === "giveRung" ? event.rung : []));

describe("rungs of help", () => {
  it("come one by one: where to look, the principle, the fix, and then the reason is asked for", () => {
    const all = asking(tried(LEFT_ON), ask(0), ask(1), ask(2));
    expect(rungsOf(all.events)).toEqual(["where", "principle", "fix"]);
    expect(all.told.help).toMatchObject({ hasMore: false, question: null, reason: { state: "asked" } });
    expect(all.told.help?.rungs.map(({ text }) => text)).toEqual(
      all.events.map((event) => (event.did === "giveRung" ? event.text : "")),
    );
    expect(refusal(all.kept, ask(3))).toBe("noHelp");
  });

  it("light what their words name, and nothing else", () => {
    const all = asking(tried(LEFT_ON), ask(0), ask(1), ask(2));
    expect(all.told.help?.rungs.map(({ parts }) => parts)).toEqual([[], [], ["V1"]]);
    const inAddend = asking(
      tried({ ...explained("partDropped", "R4"), addend: ["V2" as PartId] }),
      ask(0),
      ask(1),
      ask(2),
    );
    expect(inAddend.told.help?.rungs.map(({ parts }) => parts)).toEqual([["V2"], [], ["R4"]]);
  });

  it("find a name in their words even where it is a word of the sentence as well", () => {
    // "Count the sources that act in this circuit." has "act"; a source of that name is not what it speaks of.
    const all = asking(tried(explained("sourceLeftOn", "act")), ask(0), ask(1), ask(2));
    expect(all.told.help?.rungs.map(({ parts }) => parts)).toEqual([[], [], ["act"]]);
  });

  it("are given once, where two people ask for the same one", () => {
    const { kept, events } = asking(tried(LEFT_ON), ask(0), ask(0));
    expect(rungsOf(events)).toEqual(["where"]);
    expect(kept.help?.given).toBe(1);
  });

  it("stand where the same mistake is made again, and begin anew with another", () => {
    const { help } = asking(tried(LEFT_ON), ask(0), ask(1)).kept;
    expect(helpAfter(help, false, helpWith([LEFT_ON, OPENED]))).toEqual(help);
    expect(helpAfter(help, false, helpWith([OPENED]))?.given).toBe(0);
    expect(helpAfter(help, false, null)).toBeNull();
    expect(helpAfter(helpWith([LEFT_ON, OPENED]), false, helpWith([LEFT_ON]))?.thinkable).toEqual([LEFT_ON]);
  });

  it("stay to be read at the right value, and the reason can still be given there", () => {
    const before = asking(tried(LEFT_ON), ask(0), ask(1), ask(2)).kept.help;
    const right: KeptTry = { ...tried(), judgement: { outcome: "right" }, help: helpAfter(before, true, null) };
    expect(toldTry(right, NOW, "other")).toMatchObject({
      judgement: { outcome: "right" },
      help: { hasMore: false, reason: { state: "asked" } },
    });
    expect(asking(right, say("V1 was still on")).kept.help?.reason?.text).toBe("V1 was still on");
    expect(helpAfter(helpWith([LEFT_ON]), true, null)).toBeNull();
  });
});

describe("the question between two mistakes", () => {
  it("comes before the first rung, and its answer picks whose rungs follow", () => {
    const put = asking(tried(LEFT_ON, OPENED), ask(0));
    expect(put.events).toMatchObject([{ did: "putQuestion", between: [LEFT_ON, OPENED] }]);
    expect(put.told.help).toMatchObject({ rungs: [], hasMore: false });
    expect(put.told.help?.question?.deeds).toEqual(["leave V1 on", "make V2 an open"]);
    const answered = asking(put.kept, choose(1));
    expect(answered.events).toMatchObject([
      { did: "answerQuestion", choice: 1, explanation: OPENED },
      { did: "giveRung", rung: "where", explanation: OPENED },
    ]);
    expect(answered.told.help).toMatchObject({ question: null, hasMore: true });
  });

  it("goes on to the next two, or to the one that is left, where it was neither", () => {
    const four = asking(tried(LEFT_ON, OPENED, DROPPED, explained("partDropped", "R5")), ask(0), choose("neither"));
    expect(four.events.at(-1)).toMatchObject({
      did: "putQuestion",
      between: [DROPPED, explained("partDropped", "R5")],
    });
    const three = asking(tried(LEFT_ON, OPENED, DROPPED), ask(0), choose("neither"));
    expect(three.events.at(-1)).toMatchObject({ did: "giveRung", rung: "where", explanation: DROPPED });
  });

  it("leaves what is known by comparing, where nothing that is known of was done", () => {
    const { told, kept } = asking(tried(LEFT_ON, OPENED), ask(0), choose("neither"));
    expect(told.judgement).toEqual({ outcome: "wrong", diagnosis: { code: "size", factor: 2, sign: "turned" } });
    expect(told.help).toBeNull();
    expect(refusal(kept, ask(0))).toBe("noHelp");
  });

  it("is put once and answered once, and never between two that have the same words", () => {
    expect(asking(tried(LEFT_ON, OPENED), ask(0), ask(0)).events).toHaveLength(1);
    expect(asking(tried(LEFT_ON, OPENED), ask(0), choose(0), choose(1)).events).toHaveLength(3);
    expect(asking(tried(LEFT_ON), choose(0)).events).toEqual([]);
    const same = explained("inputPrefixSlip", "R1");
    expect(helpWith([same, same])?.thinkable).toHaveLength(1);
  });
});

describe("help is refused", () => {
  it("for another try than the newest, or one whose answer is another by now", () => {
    expect(refusal(undefined, ask(0))).toBe("olderTry");
    expect(refusal({ ...tried(LEFT_ON), count: 4 }, ask(0))).toBe("olderTry");
    expect(refusal(tried(LEFT_ON), ask(0), true)).toBe("outdated");
    expect(refusal(asking(tried(LEFT_ON, OPENED), ask(0)).kept, choose(0), true)).toBe("outdated");
    expect(toldTry(tried(LEFT_ON), { ...NOW, isOutdated: true }, "other").help).toMatchObject({ hasMore: false });
  });

  it("where no mistake explains the value", () => {
    expect(refusal(tried(), ask(0))).toBe("noHelp");
    expect(toldTry(tried(), NOW, "other")).toMatchObject({ help: null, judgement: { diagnosis: { code: "size" } } });
  });

  it("and a reason before the last rung, or a second one, changes nothing", () => {
    expect(refusal(asking(tried(LEFT_ON), ask(0), ask(1)).kept, say("because"))).toBe("noHelp");
    const { events } = asking(tried(LEFT_ON), ask(0), ask(1), ask(2), say("one"), say("two"));
    expect(events.filter(({ did }) => did === "giveReason")).toMatchObject([{ text: "one" }]);
  });
});

it("a reason is told to instructors alone; the others hear that there is one", () => {
  const { kept } = asking(tried(LEFT_ON), ask(0), ask(1), ask(2), say("V1 was still on"));
  expect(toldTry(kept, NOW, "instructor").help?.reason).toEqual({
    state: "given",
    name: "Ben",
    text: "V1 was still on",
  });
  expect(toldTry(kept, NOW, "other").help?.reason).toEqual({ state: "given", name: "Ben", text: null });
});
