import { afterEach, expect, it, vi } from "vitest";
import * as Y from "yjs";
import { type KeptTry, triesFrom } from "../../../server/check/keptTry";
import { demoBoard } from "../../../server/demoRoom";
import { ENTRY } from "../../../server/history";
import { withTry } from "../../../shared/messages";
import { openHistory, removeFolders, temporaryFolder } from "../support/database";
import { INSTRUCTOR, joinPage, type PageClient } from "../support/pageClient";
import { type ServerProcess, startServerProcess } from "../support/serverProcess";
import { INSTRUCTOR_KEY } from "../support/testServer";
import { until } from "../support/until";

vi.setConfig({ testTimeout: 120_000 });

let server: ServerProcess | null = null;
const pages: PageClient[] = [];

afterEach(async () => {
  for (const page of pages.splice(0)) page.leave();
  await server?.end("SIGKILL");
  removeFolders();
});

const made = (card: string, count = 1): KeptTry => ({
  wanted: "Iy",
  card,
  text: "1 mA",
  participant: "p",
  name: "Ann",
  time: 1,
  judgement: { outcome: "wrong", diagnosis: { code: "signTurned" } },
  help: null,
  count,
  answer: "1/50 A",
});
const meant = { wanted: "Iy", card: "I1", count: 1 };
const entry = (value: unknown, sequence: number) => ({
  room: "algebra",
  sequence,
  time: 1,
  participant: "p",
  kind: ENTRY.try,
  bytes: new TextEncoder().encode(typeof value === "string" ? value : JSON.stringify(value)),
});

it("keeps the newest try of each of at most a hundred cards", () => {
  const cards = Array.from({ length: 150 }, (_, i) => `V${i}`);
  const kept = [...cards, ...cards].reduce<readonly KeptTry[]>((tries, card) => withTry(tries, made(card)), []);
  expect(kept.map(({ card }) => card)).toEqual(cards.slice(50));
  expect(withTry([made("V1+I1"), made("V2")], made("I1+V1", 2))).toEqual([made("V2"), made("I1+V1", 2)]);
});

it("from before there was help is read as one without", () => {
  const { help: _, ...old } = made("V1");
  expect(triesFrom({ snapshot: null, entries: [entry(old, 1)] })).toEqual([made("V1")]);
});

it("is read from the snapshot and the entries behind it, without what is no try", () => {
  const access = JSON.stringify({ members: [], tries: [made("V1"), { card: "V3" }, 7] });
  const snapshot = { room: "algebra", sequence: 4, time: 1, bytes: new Uint8Array(), thin: null, access };
  const entries = [
    entry(made("V2"), 5),
    entry("{", 6),
    entry({ ...made("V4"), text: "x".repeat(2000) }, 7),
    entry(made("V1", 2), 8),
  ];
  expect(triesFrom({ snapshot, entries })).toEqual([made("V2"), made("V1", 2)]);
  expect(triesFrom({ snapshot: { ...snapshot, access: null }, entries: [] })).toEqual([]);
});

it("outlives the server's death once anybody has been told of it", async () => {
  const folder = temporaryFolder();
  server = await startServerProcess(folder);
  const join = async (asked: object) => {
    const page = await joinPage((server as ServerProcess).url, "algebra", asked);
    pages.push(page);
    return page;
  };
  const hart = await join(INSTRUCTOR);
  const ann = await join({ name: "Ann" });
  Y.applyUpdate(hart.doc, demoBoard());
  void ann.tryValue("Iy", "I1", "20 mA").catch(() => {});
  await until("the instructor is told", () => hart.tries.length === 1, 60_000);
  for (const given of [0, 1, 2]) void ann.replyTo({ do: "askHelp", ...meant, given }).catch(() => {});
  await until("the last rung is there", () => hart.tries[0]?.help?.rungs.length === 3);
  void ann.replyTo({ do: "giveReason", ...meant, text: "the arrow" }).catch(() => {});
  await until("the reason is there", () => hart.tries[0]?.help?.reason.state === "given");
  const [told] = hart.tries;
  void ann.replyTo({ do: "tryLine", card: "V1", text: "Iy = I_R4 - I_R5" }).catch(() => {});
  await until("a line is told", () => hart.steps.lines.length === 1);
  void ann.replyTo({ do: "askStepHelp", step: "line", card: "V1", count: 1, given: 0 }).catch(() => {});
  await until("its first rung is told", () => hart.steps.lines[0]?.help?.rungs.length === 1);
  const { lines } = hart.steps;
  await server.end("SIGKILL");

  const store = await openHistory(folder);
  const stored = await store.load("algebra");
  expect(triesFrom(stored)).toMatchObject([{ card: "I1", text: "20 mA", name: "Ann" }]);
  await store.close();

  server = await startServerProcess(folder);
  const late = await join({ name: "Lea" });
  await until("she is told", () => late.tries.length === 1);
  expect(late.tries).toMatchObject([{ card: "I1", text: "20 mA", name: "Ann", count: 1, isOutdated: false }]);
  expect(late.tries[0]?.help).toEqual({ ...told?.help, reason: { state: "given", name: "Ann", text: null } });
  const again = await join({ name: "Dr. Lee", key: INSTRUCTOR_KEY });
  await until("the instructor reads on", () => again.tries.length === 1);
  expect(again.tries).toEqual([told]);
  await until("the line is there", () => again.steps.lines.length === 1);
  expect(again.steps.lines).toEqual(lines);
});
