import { expect, it } from "vitest";
import { ReplayPlayer } from "../../../src/replay/player";
import { findChapters, findingText, type Reading, readSession } from "../../../src/replay/search";
import { R, V } from "../../board/builders";
import { type Happening, record, serve } from "./recorded";

const TRY = {
  wanted: "Iy",
  card: "I1",
  text: "20 mA",
  judgement: { outcome: "wrong", diagnosis: { code: "signTurned" } },
  count: 1,
};
const HAPPENINGS: readonly Happening[] = [
  { after: 0, participant: 1, kind: "join" },
  { after: 10_000, participant: 1, command: V("V1", "12 V", [0, 0], [0, 4]) },
  { after: 10_000, participant: 2, command: R("R1", "4.7k", [0, 0], [4, 0]) },
  { after: 10_000, participant: 2, kind: "try", json: TRY },
  {
    after: 10_000,
    participant: 2,
    kind: "try",
    json: { step: "line", card: "V1", count: 1, text: "V1 = 12 V", told: { outcome: "true" } },
  },
  { after: 10_000, participant: 1, command: { do: "setPage", title: "Two meshes", statement: "" } },
];

/** The whole session once it is read. */
function read(happenings: readonly Happening[]): Promise<Reading> {
  const recorded = record(happenings);
  const player = new ReplayPlayer(serve(recorded, 10, 2).source, recorded.timeline, 0);
  return new Promise((resolve) => {
    // Also where it cannot be read to its end, so that a test that fails does so at once.
    readSession(player, (reading) => (reading.share === 1 || reading.fault !== null) && resolve(reading));
  });
}

it("a session that is read is searched by part, value, person, try and title", async () => {
  const { index, fault } = await read(HAPPENINGS);
  expect(fault).toBeNull();
  const found = (words: string, participant: number | null = null) =>
    index.find({ words, participant, about: null }, 10).map(findingText);
  expect(found("4.7K")).toEqual(["places R1, 4.7k"]);
  expect(found("20 ma")).toEqual(["tries 20 mA for Iy, I1 alone. The size is right, the sign is turned round."]);
  expect(found("sign turned")).toHaveLength(1);
  expect(found("meshes")).toEqual(["writes the title: Two meshes"]);
  expect(found("V1", 2)).toEqual(["writes V1 = 12 V for V1 alone"]);
  expect(found("", 1)).toEqual(["places V1, 12 V", "writes the title: Two meshes"]);
});

it("chapters are found by every word of what they are called", () => {
  const subject = { code: "wrong", what: "value", wanted: "Iy", card: "I1", participant: 2 } as const;
  const chapters = [
    { id: "a", sequence: 1, time: 0, subject, title: null },
    { id: "b", sequence: 2, time: 0, subject, title: "The sign" },
  ];
  const found = (words: string) => findChapters(chapters, words, () => "Ben").map(({ id }) => id);
  expect(found("ben WRONG")).toEqual(["a"]);
  expect(found("sign")).toEqual(["b"]);
  expect(found(" ")).toEqual([]);
});

it("a try that was judged by a later version is found by what was tried", async () => {
  const judgement = { outcome: "wrong", diagnosis: { code: "of a later version" } };
  const { index } = await read([{ after: 0, participant: 2, kind: "try", json: { ...TRY, judgement } }]);
  expect(index.find({ words: "20 mA", participant: null, about: "try" }, 10)).toHaveLength(1);
});
