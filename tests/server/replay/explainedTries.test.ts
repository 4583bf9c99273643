import { expect, it } from "vitest";
import { OPEN_ACCESS } from "../../../server/access";
import { forReplay } from "../../../server/replay/forViewer";
import { Persons } from "../../../server/replay/persons";
import type { Viewer } from "../../../server/replay/viewer";
import { readEvent } from "../../../shared/replay";

const entry = (kind: string, value: object) => ({
  room: "algebra",
  sequence: 1,
  time: 1,
  participant: "ann",
  kind,
  bytes: new TextEncoder().encode(JSON.stringify(value)),
});
const mistakes = [{ code: "sourceLeftOn", parts: ["V1"], node: null }];
const made = {
  wanted: "Iy",
  card: "I1",
  text: "40 mA",
  participant: "ann",
  name: "Ann",
  time: 1,
  judgement: { outcome: "wrong", diagnosis: { code: "size", factor: 2, sign: "turned" } },
  help: null,
  count: 1,
  answer: "-1/50 A",
};
const replayed = (
  kind: string,
  value: object,
  as: Viewer["as"] = "member",
  participant: string | null = null,
): unknown => {
  const { bytes } = forReplay(entry(kind, value), OPEN_ACCESS, new Persons(), { as, participant });
  return bytes.length === 0 ? null : JSON.parse(new TextDecoder().decode(bytes));
};

it("a replay has a try as the room was told it: nothing of the mistake that explains it, and no answer", () => {
  const help = { thinkable: [{ mistakes, addend: null }], isAsked: false, given: 0, reason: null };
  expect(replayed("try", { ...made, help })).toEqual({
    wanted: "Iy",
    card: "I1",
    text: "40 mA",
    count: 1,
    judgement: { outcome: "wrong", diagnosis: null },
  });
  expect(replayed("try", made)).toMatchObject({ judgement: { diagnosis: { code: "size", factor: 2 } } });
});

it("an instructor's replay has the likeliest mistake in words, and the reasons that were given", () => {
  const other = [{ code: "signTurned", parts: [], node: null }];
  const thinkable = [
    { mistakes, addend: null },
    { mistakes: other, addend: null },
  ];
  const help = { thinkable, isAsked: false, given: 0, reason: null };
  const told = replayed("try", { ...made, help }, "instructor") as object;
  expect(told).toMatchObject({ text: "40 mA", judgement: { diagnosis: null }, mistake: "leave V1 on" });
  expect(readEvent({ ...entry("try", told), participant: 1 })).toMatchObject({ made: { mistake: "leave V1 on" } });
  expect(replayed("try", made, "instructor")).not.toHaveProperty("mistake");
  const mended = { ...made, judgement: { outcome: "right" }, help };
  expect(replayed("try", mended, "instructor")).not.toHaveProperty("mistake");
  const about = { wanted: "Iy", card: "I1", count: 1 };
  const given = { did: "giveReason", ...about, participant: "ann", name: "Ann", text: "V1 was still on" };
  const reason = { ...about, text: "V1 was still on" };
  expect(replayed("reason", given, "instructor")).toEqual(reason);
  expect(readEvent({ ...entry("reason", reason), participant: 1 })).toMatchObject({ kind: "reason", ...reason });
});

it("a replay has the question between two mistakes as it was put; what was said is for instructors and who said it", () => {
  const about = { wanted: "Iy", card: "I1", count: 1 };
  const by = { ...about, participant: "ann", name: "Ann" };
  const words = { text: "Did you leave V1 on, or did you zero V1?", deeds: ["leave V1 on", "zero V1"] };
  const between = [
    { mistakes, addend: null },
    { mistakes: [{ code: "actingZeroed", parts: ["V1"], node: null }], addend: null },
  ];
  const put = replayed("question", { did: "putQuestion", ...by, ...words, between });
  expect(put).toEqual({ ...about, ...words });
  expect(readEvent({ ...entry("question", put as object), participant: 1 })).toMatchObject({
    kind: "question",
    ...about,
    ...words,
  });
  const answers = [
    { choice: 0, explanation: between[0], said: { deed: "leave V1 on" } },
    { choice: "neither", explanation: null, said: { deed: null } },
  ];
  for (const { choice, explanation, said } of answers) {
    const answered = { did: "answerQuestion", ...by, choice, explanation };
    const toAnn = replayed("question", answered, "member", "ann") as object;
    expect(toAnn).toEqual({ ...about, said });
    expect(replayed("question", answered, "instructor")).toEqual(toAnn);
    expect(replayed("question", answered, "member", "ben")).toEqual({ ...about, said: null });
    expect(replayed("question", answered, "link")).toEqual({ ...about, said: null });
    expect(readEvent({ ...entry("question", toAnn), participant: 1 })).toMatchObject({
      kind: "answer",
      ...about,
      said,
    });
  }
  expect(replayed("question", { did: "giveReason", ...by, text: "V1 was still on" }, "instructor")).toBeNull();
});

it("other replays have no reasons, which are for instructors, and no mistakes", () => {
  const about = { wanted: "Iy", card: "I1", count: 1, participant: "ann", name: "Ann" };
  expect(replayed("reason", { did: "giveReason", ...about, text: "V1 was still on" })).toBeNull();
  const explanation = { mistakes, addend: null };
  const choice = { did: "answerQuestion", ...about, choice: 0, explanation };
  expect(JSON.stringify(replayed("question", choice))).not.toContain("sourceLeftOn");
});

it("a replay has zeroings and lines as the room was told them: no rung, no fault and no key", () => {
  const rungs = [{ rung: "where", text: "Count them.", parts: [], nodes: [] }];
  const { wanted: _, text: __, judgement: ___, ...common } = { ...made, help: { rungs, given: 0, reason: null } };
  const zeroing = { ...common, step: "zeroing", decisions: { V1: "open" }, judgement: { outcome: "wrong" } };
  const told = { step: "zeroing", card: "I1", count: 1, decisions: { V1: "open" }, outcome: "wrong" };
  expect(replayed("try", zeroing)).toEqual(told);
  const diagnosis = { code: "termTurned", term: "I_R5" };
  const line = { ...common, step: "line", text: "Iy = I_R4 - I_R5", judgement: { outcome: "false", diagnosis } };
  expect(replayed("try", line)).toEqual({
    step: "line",
    card: "I1",
    count: 1,
    text: "Iy = I_R4 - I_R5",
    told: { outcome: "false", diagnosis: null },
  });
  expect(readEvent({ ...entry("try", told), participant: 1 })).toMatchObject({ kind: "step", made: told });
  const { step, card, count } = told;
  const { rung: _____, ...rung } = rungs[0] ?? {};
  const asked = { did: "giveStepRung", step, card, count, participant: "ann", name: "Ann", ...rungs[0] };
  expect(replayed("help", asked)).toEqual({ step, card, count, ...rung });
  // What had been given before the same was made again stands with it, and no more.
  const again = { ...zeroing, help: { rungs: [...rungs, ...rungs], given: 1, reason: null } };
  expect(replayed("try", again)).toEqual({ ...told, help: { rungs: [rung], reason: null } });
});

it("a replay has a rung in the words in which the room was given it, without the mistake that it is about", () => {
  const words = { rung: "where", text: "Look at V1 again.", parts: ["V1"], nodes: [] };
  const given = { did: "giveRung", wanted: "Iy", card: "I1", count: 1, participant: "ann", name: "Ann", ...words };
  const told = { wanted: "Iy", card: "I1", count: 1, text: "Look at V1 again.", parts: ["V1"], nodes: [] };
  expect(replayed("help", { ...given, explanation: { mistakes, addend: null } })).toEqual(told);
  expect(readEvent({ ...entry("help", told), participant: 1 })).toMatchObject({ kind: "help", ...told });
});
