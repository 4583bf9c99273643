import { afterAll, afterEach, beforeAll, beforeEach } from "vitest";
import * as Y from "yjs";
import { hashOfKey } from "../../../server/access";
import { demoBoard } from "../../../server/demoRoom";
import type { Limits } from "../../../server/limits";
import { SolverPool } from "../../../server/solver";
import { applyCommand, readBoard } from "../../../shared/board";
import type { TryReply } from "../../../shared/messages";
import { INSTRUCTOR, joinPage, type PageClient } from "./pageClient";
import { INSTRUCTOR_KEY, startTestServer, type TestServer } from "./testServer";
import { until } from "./until";

/** A room with the demo board whose answers are hidden, an instructor and a learner in it: another one for each test. */
export class TryRooms {
  server!: TestServer;
  name = "";
  hart!: PageClient;
  ann!: PageClient;
  readonly #limits: Partial<Limits>;
  readonly #pages: PageClient[] = [];
  #rooms = 0;

  /** To be called where tests are collected: threads take long to start, so one server serves all tests of a file. */
  constructor(limits: Partial<Limits>) {
    this.#limits = limits;
    beforeAll(() => this.#start());
    afterAll(() => this.server.stop());
    beforeEach(() => this.#open());
    afterEach(() => this.#close());
  }

  async join(asked: Parameters<typeof joinPage>[2]): Promise<PageClient> {
    const page = await joinPage(this.server.url, this.name, asked);
    this.#pages.push(page);
    return page;
  }

  /** Asks for the next rung at a card of Iy. */
  ask(page: PageClient, card: string, given: number, count = 1): Promise<TryReply> {
    return page.replyTo({ do: "askHelp", wanted: "Iy", card, count, given });
  }

  /** Gives the part of this name another value, and waits for the answers to that. */
  async setValue(name: string, value: string): Promise<void> {
    const part = readBoard(this.hart.doc).parts.find((each) => each.name === name);
    if (!part) throw new Error(`no part ${name}`);
    const before = this.hart.answers.at(-1)?.revision ?? 0;
    applyCommand(this.hart.doc, { do: "setValue", id: part.id, value }, { source: "local" });
    await until("new answers", () => (this.hart.answers.at(-1)?.revision ?? 0) > before);
  }

  /** What the history has of a kind, as JSON. */
  async entriesOf(kind: string): Promise<unknown[]> {
    const { entries } = await this.server.store.load(this.name);
    const found = entries.filter((entry) => entry.kind === kind);
    return found.map(({ bytes }) => JSON.parse(new TextDecoder().decode(bytes)));
  }

  async #start(): Promise<void> {
    const solver = new SolverPool({ rules: { slice: 250, budget: 10_000 }, log: { warn: () => {} } });
    this.server = await startTestServer({ solver, limits: this.#limits });
    await this.#open();
    // The thread that judges starts with the first try.
    void this.ann.tryValue("Iy", "V1", "1 A").catch(() => {});
    await until("the first try is judged", () => this.ann.replies.size > 0, 60_000);
    this.#close();
  }

  async #open(): Promise<void> {
    this.name = `tries${++this.#rooms}`;
    await this.server.directory.create(this.name, hashOfKey(INSTRUCTOR_KEY));
    this.hart = await this.join(INSTRUCTOR);
    this.ann = await this.join({ name: "Ann" });
    Y.applyUpdate(this.hart.doc, demoBoard());
    this.hart.ask({ do: "setAnswers", shown: false });
    const isHidden = () => (this.ann.answers.at(-1)?.report?.hidden.length ?? 0) > 0;
    await until("the answers are there, and hidden", isHidden, 60_000);
  }

  #close(): void {
    for (const page of this.#pages.splice(0)) page.leave();
  }
}
