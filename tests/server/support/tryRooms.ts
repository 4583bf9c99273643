import { afterAll, afterEach, beforeAll, beforeEach } from "vitest";
import * as Y from "yjs";
import { hashOfKey } from "../../../server/access";
import { demoBoard } from "../../../server/demoRoom";
import type { StoredRoom } from "../../../server/history";
import type { Limits } from "../../../server/limits";
import { SolverPool } from "../../../server/solver";
import { applyCommand, type EntryId, readBoard } from "../../../shared/board";
import type { TryReply } from "../../../shared/messages";
import { INSTRUCTOR, joinPage, type PageClient } from "./pageClient";
import { INSTRUCTOR_KEY, startTestServer, type TestServer } from "./testServer";
import { until } from "./until";

/** A room with the demo board, an instructor and a learner in it: another one for each test. */
export class TryRooms {
  server!: TestServer;
  name = "";
  hart!: PageClient;
  ann!: PageClient;
  readonly #limits: Partial<Limits>;
  readonly #answers: "hidden" | "shown";
  readonly #pages: PageClient[] = [];
  #rooms = 0;

  /** To be called where tests are collected: threads take long to start, so one server serves all tests of a file. */
  constructor(limits: Partial<Limits>, answers: "hidden" | "shown" = "hidden") {
    this.#limits = limits;
    this.#answers = answers;
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

  /** Groups the sources of these names, and waits for the answers to the demo board with that one group. */
  async group(...names: readonly string[]): Promise<void> {
    const { doc, answers } = this.hart;
    const sources = readBoard(doc).parts.filter(({ name }) => names.includes(name));
    const group = { do: "addGroup", id: "g1" as EntryId, sources: sources.map(({ id }) => id) } as const;
    applyCommand(doc, group, { source: "local" });
    await until("the group's answer", () => answers.at(-1)?.report?.wanted[0]?.addends.length === 4);
  }

  /** Makes a change that is enough for a snapshot to be due, and waits for it. */
  async snapshot(): Promise<NonNullable<StoredRoom["snapshot"]>> {
    this.hart.board.set("long", "x".repeat(70_000));
    let snapshot: StoredRoom["snapshot"] = null;
    const look = async () => {
      ({ snapshot } = await this.server.store.load(this.name));
    };
    await until("there is a snapshot", () => {
      void look();
      return snapshot !== null;
    });
    return snapshot as unknown as NonNullable<StoredRoom["snapshot"]>;
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
    if (this.#answers === "hidden") this.hart.ask({ do: "setAnswers", shown: false });
    const answersOf = ({ answers }: PageClient) => {
      const { wanted = [], hidden = [] } = answers.at(-1)?.report ?? {};
      return wanted.length === 0 ? "missing" : hidden.length > 0 ? "hidden" : "shown";
    };
    const areThere = () => answersOf(this.hart) === "shown" && answersOf(this.ann) === this.#answers;
    await until(`the answers are there, and ${this.#answers}`, areThere, 60_000);
  }

  #close(): void {
    for (const page of this.#pages.splice(0)) page.leave();
  }
}
