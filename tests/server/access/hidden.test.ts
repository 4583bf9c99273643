import { afterEach, beforeEach, expect, it } from "vitest";
import * as Y from "yjs";
import { demoBoard } from "../../../server/demoRoom";
import { MemoryHistory } from "../../../server/history";
import { SolverPool } from "../../../server/solver";
import { readBoard } from "../../../shared/board";
import { type Circuit, readCircuitFile } from "../../../shared/circuit";
import { EXAMPLES } from "../../../shared/examples";
import type { Answers, HiddenReport } from "../../../shared/messages";
import { solveReport } from "../../../shared/solve";
import { admit } from "../support/admit";
import { BreakableHistory } from "../support/faultyHistory";
import { INSTRUCTOR, joinPage, type PageClient } from "../support/pageClient";
import { IdleSolver, startTestServer, type TestServer } from "../support/testServer";
import { until } from "../support/until";

let server: TestServer;
const pages: PageClient[] = [];
const ROOM = "algebra";

async function join(asked: Parameters<typeof joinPage>[2] = {}): Promise<PageClient> {
  const page = await joinPage(server.url, ROOM, asked);
  pages.push(page);
  return page;
}

beforeEach(async () => {
  const solver = new SolverPool({ rules: { slice: 250, budget: 10_000 }, log: { warn: () => {} } });
  server = await startTestServer({ solver });
});
afterEach(async () => {
  for (const page of pages.splice(0)) page.leave();
  await server.stop();
});

const newest = (page: PageClient): Answers | undefined => page.answers.at(-1);
const valuesOf = (report: HiddenReport | null | undefined) => {
  const [wanted] = report?.wanted ?? [];
  return [...(wanted?.addends ?? []).map(({ value }) => value), wanted?.total ?? null];
};

/** Whether any frame from place `from` on has the text in it, in UTF-8, wherever. */
function wasSent(page: PageClient, text: string, from = 0): boolean {
  return page.frames.slice(from).some((frame) => Buffer.from(frame).includes(text));
}

/** The room with the demo board drawn and everything hidden before anybody but the instructor came. */
async function hiddenRoom(): Promise<PageClient> {
  const hart = await join(INSTRUCTOR);
  hart.ask({ do: "setAnswers", shown: false });
  await until("all is hidden", () => hart.state?.answers.shown === false);
  Y.applyUpdate(hart.doc, demoBoard());
  await until("hart has the answers", () => (newest(hart)?.report?.wanted[0]?.addends.length ?? 0) > 0);
  return hart;
}

/** Every number that the report gives away, as it would stand in a frame. The board's own values are no secret. */
function secretsOf(report: HiddenReport, board: string): string[] {
  const [wanted] = report.wanted;
  const shown = [...valuesOf(report), ...report.nodes.map(({ voltage }) => voltage)];
  const powers = report.parts.flatMap(({ power, current }) => [power, current]);
  const texts = [...shown, ...powers].flatMap((value) => (value ? [value.text, value.exact ?? value.text] : []));
  const coefficients = (wanted?.addends ?? []).flatMap(({ coefficient }) => (coefficient ? [coefficient.text] : []));
  // What stands on the board, or is a mere digit, would be found in any frame.
  return [...new Set([...texts, ...coefficients])].filter((text) => text.length > 2 && !board.includes(text));
}

it("what is hidden is in no byte that a learner or observer is sent, whenever they come and whatever changes", async () => {
  const hart = await hiddenRoom();
  const ann = await join({ name: "Ann" });
  const olga = await join({ name: "Olga", as: "observer" });
  const report = newest(hart)?.report as HiddenReport;
  await until("both have answers", () => [ann, olga].every((page) => newest(page)?.report));
  for (const source of report.sources) hart.ask({ do: "setShown", card: source.id, shown: false });
  hart.ask({ do: "setShown", card: "total", shown: false });
  ann.ask({ do: "setShown", card: "total", shown: true });
  olga.ask({ do: "setAnswers", shown: true });
  await until("they are refused", () => ann.notices.length + olga.notices.length === 2);
  const before = newest(hart)?.revision ?? 0;
  ann.board.set("note", "anything makes the room solve again");
  await until("there are new answers", () => [hart, ann, olga].every((page) => (newest(page)?.revision ?? 0) > before));
  const secrets = secretsOf(report, JSON.stringify(readBoard(hart.doc)));
  expect(secrets.length).toBeGreaterThan(10);
  for (const secret of secrets) {
    expect([secret, wasSent(ann, secret), wasSent(olga, secret)]).toEqual([secret, false, false]);
    expect(wasSent(hart, secret)).toBe(true);
  }
  expect(newest(ann)?.report?.hidden).toEqual([...report.sources.map(({ id }) => id), "total"]);
  expect(newest(hart)?.report?.hidden).toEqual([]);
});

it("what is revealed comes at once, and is gone again for who comes after it was hidden again", async () => {
  const hart = await hiddenRoom();
  const ann = await join({ name: "Ann" });
  const addends = newest(hart)?.report?.wanted[0]?.addends ?? [];
  const { sources, value } = addends[0] ?? { sources: [], value: null };
  const card = sources.join("+");
  const shown = (page: PageClient) => newest(page)?.report?.wanted[0]?.addends[0]?.value?.text;
  hart.ask({ do: "setShown", card, shown: true });
  await until("ann sees it", () => shown(ann) === value?.text);
  expect(newest(ann)?.report?.hidden).not.toContain(card);
  expect(newest(ann)?.report?.wanted[0]?.total).toBeNull();
  hart.ask({ do: "setShown", card, shown: false });
  await until("it is taken from ann's answers", () => shown(ann) === undefined);
  const late = await join({ name: "Late" });
  await until("the late one has answers", () => newest(late)?.report !== undefined);
  expect(valuesOf(newest(late)?.report)).toEqual(valuesOf(newest(late)?.report).map(() => null));
  expect(wasSent(late, value?.text ?? "")).toBe(false);
  hart.ask({ do: "setAnswers", shown: true });
  await until("all is shown", () => newest(late)?.report?.hidden.length === 0);
  expect(newest(late)).toEqual(newest(hart));
});

it("a learner who comes in again by the instructor's link is sent everything", async () => {
  const hart = await hiddenRoom();
  const ann = await join({ name: "Ann" });
  await until("ann has answers", () => newest(ann)?.report !== undefined);
  await admit(server.url, ROOM, INSTRUCTOR, ann.cookie);
  await until("ann's page is the instructor's", () => ann.state?.you.role === "instructor");
  await until("ann has all", () => newest(ann)?.report?.hidden.length === 0);
  expect(newest(ann)).toEqual(newest(hart));
});

it("while nothing can be stored, hiding counts at once, and what is shown is sent when it is stored", async () => {
  await server.stop();
  const store = new BreakableHistory(new MemoryHistory());
  const solver = new IdleSolver();
  server = await startTestServer({ store, solver });
  const hart = await join(INSTRUCTOR);
  const ann = await join({ name: "Ann" });
  const report = solveReport(threeSources());
  const total = report.wanted[0]?.total?.text ?? "";
  hart.ask({ do: "setShown", card: "V1", shown: false });
  await until("V1 is hidden", () => ann.state?.answers.except.includes("V1") === true);
  store.isBroken = true;
  hart.ask({ do: "setShown", card: "total", shown: false });
  hart.ask({ do: "setShown", card: "V1", shown: true });
  await until("the server notices", () => ann.notices.some(({ code }) => code === "notStoring"));
  // Answers to the board as it is stored go out all the same.
  solver.jobs[0]?.deliver({ revision: 0, report, boardProblems: [], failure: null });
  await until("ann has answers", () => newest(ann)?.report?.hidden.length === 2);
  expect(newest(ann)?.report?.hidden).toEqual(["V1", "total"]);
  expect(ann.state?.answers.except).toEqual(["V1"]);
  store.isBroken = false;
  await until("both are told", () => ann.state?.answers.except.join() === "total");
  await until("V1 is shown", () => newest(ann)?.report?.hidden.join() === "total");
  expect(total).not.toBe("");
  expect(wasSent(ann, `"${total}"`)).toBe(false);
});

function threeSources(): Circuit {
  const file = readCircuitFile(EXAMPLES[0]?.json);
  if (!file.ok) throw new Error("the first example can be read");
  return file.value.circuit;
}
