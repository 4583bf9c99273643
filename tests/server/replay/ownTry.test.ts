import { afterAll, afterEach, expect, it } from "vitest";
import { SolverPool } from "../../../server/solver";
import type { ReplayAnswers } from "../../../shared/replay";
import { hasAnswers, shownValues, TryRoom } from "../ownTries/tryRoom";
import { lasting, startTestServer, type TestServer } from "../support/testServer";
import { until } from "../support/until";
import { type Asker, checkpoint, manifest, solved } from "./support";

const solver = new SolverPool({ rules: { slice: 250, budget: 10_000 }, log: console, lanes: 1 });
let server: TestServer;

afterAll(() => solver.close());
afterEach(() => server.stop());

it("the replay of somebody's own try shows them what they had found by then, and instructors all; nobody else is named", async () => {
  server = await startTestServer({ solver: lasting(solver) });
  const { room, hart, ann } = await TryRoom.open(server, "own");
  try {
    const { name, own } = await room.tryOf(ann);
    await until("there are answers", () => hasAnswers(own));
    const wanted = own.answers.at(-1)?.report?.wanted[0]?.name ?? "";
    const before = (await manifest(server, name, ann)).length;
    expect(await own.tryValue(wanted, "V1", "60 mA")).toMatchObject({ outcome: "right" });
    await until("it is shown", () => shownValues(own).V1 !== null);
    const { length, participants, viewer } = await manifest(server, name, ann);
    expect(participants.map((person) => person.name)).toEqual(["Ann"]);
    expect(viewer).toMatchObject({ as: "member", number: 1, mayGoOn: true, mayManage: false });
    const values = async (asker: Asker, at: number) => {
      const { answers } = await solved<ReplayAnswers>(server, name, "answers", at, asker);
      const [first] = answers.report?.wanted ?? [];
      return first?.addends.map(({ sources, value }) => [sources.join("+"), value?.text ?? null]);
    };
    expect(await values(ann, before)).toEqual([
      ["V1", null],
      ["I1", null],
      ["V2", null],
    ]);
    expect(await values(ann, length)).toEqual([
      ["V1", "60 mA"],
      ["I1", null],
      ["V2", null],
    ]);
    expect((await values(hart, before))?.every(([, value]) => value !== null)).toBe(true);
    expect((await checkpoint(server, name, 0, ann)).moment.settings.answers.shown).toBe(false);
  } finally {
    room.close();
  }
});
