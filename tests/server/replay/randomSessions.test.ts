import fc from "fast-check";
import { afterAll, beforeAll, expect, it } from "vitest";
import { hashOfKey } from "../../../server/access";
import { MemoryHistory } from "../../../server/history";
import { RoomReplay } from "../../../server/replay/roomReplay";
import { BoardReplay } from "../../../shared/board";
import type { RoomState } from "../../../shared/messages";
import { afterEvent, BEGINNING, type Moment, readEvent } from "../../../shared/replay";
import { INSTRUCTOR, joinPage, PageClient } from "../support/pageClient";
import { INSTRUCTOR_KEY, startTestServer, type TestServer } from "../support/testServer";
import { until } from "../support/until";
import { allEntries, manifest, updatesOf } from "./support";

const store = new MemoryHistory();
let server: TestServer;
beforeAll(async () => {
  server = await startTestServer({ store });
});
afterAll(() => server.stop());

/** What one of three people does; 0 is the instructor. */
type Step =
  | { readonly does: "draw" | "comeOrGo"; readonly who: number }
  | { readonly does: "look"; readonly who: number; readonly card: string }
  | { readonly does: "hide"; readonly shown: boolean }
  | { readonly does: "lock"; readonly locked: boolean }
  | { readonly does: "drawing"; readonly drawing: RoomState["drawing"] };

const who = fc.nat(2);
const step: fc.Arbitrary<Step> = fc.oneof(
  { weight: 4, arbitrary: fc.record({ does: fc.constant("draw" as const), who }) },
  // The instructor stays, so that somebody can be asked what the room is.
  { weight: 1, arbitrary: fc.record({ does: fc.constant("comeOrGo" as const), who: fc.integer({ min: 1, max: 2 }) }) },
  fc.record({ does: fc.constant("look" as const), who, card: fc.constantFrom("V1", "I1", "I1+V1", "total") }),
  fc.record({ does: fc.constant("hide" as const), shown: fc.boolean() }),
  fc.record({ does: fc.constant("lock" as const), locked: fc.boolean() }),
  fc.record({ does: fc.constant("drawing" as const), drawing: fc.constantFrom("everyone", "chosen", "instructor") }),
) as fc.Arbitrary<Step>;

/** A room as it was live: its board, what it allows and shows, and who was there, by their ids. */
type Live = { readonly board: string; readonly settings: string; readonly here: readonly string[] };

class Session {
  readonly live = new Map<number, Live>();
  readonly #looks = new Map<number, string>();
  #count = 0;

  private constructor(
    readonly room: string,
    readonly pages: (PageClient | null)[],
    readonly people: readonly PageClient[],
  ) {}

  static async begin(room: string): Promise<Session> {
    await server.directory.create(room, hashOfKey(INSTRUCTOR_KEY));
    const people: PageClient[] = [];
    for (const asked of [INSTRUCTOR, { name: "Ann" }, { name: "Bob" }])
      people.push(await joinPage(server.url, room, asked));
    const session = new Session(room, [...people], people);
    await until("the instructor is told that all are here", () =>
      people.every(({ you }) => session.hart.state?.participants.some(({ id, isHere }) => isHere && id === you.id)),
    );
    await session.note();
    return session;
  }

  get hart(): PageClient {
    return this.people[0] as PageClient;
  }

  /** Does a step, waits until everybody has heard of it, and notes what the room is then. */
  async take(step: Step): Promise<void> {
    switch (step.does) {
      case "draw":
        return this.#draw(step.who);
      case "comeOrGo":
        return this.#comeOrGo(step.who);
      case "look":
        // A page tells the same look again and again; it counts once.
        if (this.#looks.get(step.who) === step.card) return;
        this.#looks.set(step.who, step.card);
        this.pages[step.who]?.provider.awareness.setLocalState({ card: step.card, wanted: null });
        return;
      case "hide":
        this.hart.ask({ do: "setAnswers", shown: step.shown });
        return this.#told((state) => state.answers.shown === step.shown);
      case "lock":
        this.hart.ask({ do: "lock", locked: step.locked });
        return this.#told((state) => state.isLocked === step.locked);
      case "drawing":
        this.hart.ask({ do: "setDrawing", who: step.drawing });
        return this.#told((state) => state.drawing === step.drawing);
    }
  }

  async note(): Promise<void> {
    await server.rooms.loaded(this.room)?.stored();
    const length = (await server.store.heads(this.room, 0, 1e6)).length;
    const { state } = this.hart;
    if (!state) throw new Error("the instructor was told nothing");
    const { drawing, answers, lines, trying, isLocked, isEnded } = state;
    const here = this.people.filter((_, index) => this.pages[index] !== null).map(({ you }) => you.id);
    this.live.set(length, {
      board: boardOf(this.hart),
      settings: JSON.stringify({ drawing, answers, lines, trying, isLocked, isEnded }),
      here: here.sort(),
    });
  }

  end(): void {
    for (const page of this.pages) page?.leave();
  }

  async #draw(who: number): Promise<void> {
    const page = this.pages[who];
    if (!page?.state?.you.mayDraw) return;
    const key = `k${++this.#count % 5}`;
    page.board.set(key, this.#count);
    const count = this.#count;
    const drawn = () => store.entries.filter(({ room, kind }) => room === this.room && kind === "update").length;
    await until("it is stored", () => drawn() === count);
    await until("everybody has it", () => this.pages.every((each) => !each || each.board.get(key) === count));
    await this.note();
  }

  async #comeOrGo(who: number): Promise<void> {
    const person = this.people[who] as PageClient;
    const page = this.pages[who];
    const isHere = page === null;
    if (page) page.leave();
    this.#looks.delete(who);
    this.pages[who] = page ? null : await new PageClient(server.url, this.room, person).joined();
    await this.#told((state) => state.participants.find(({ id }) => id === person.you.id)?.isHere === isHere);
  }

  async #told(isSo: (state: RoomState) => boolean): Promise<void> {
    await until("everybody is told", () => this.pages.every((page) => !page || (page.state && isSo(page.state))));
    await this.note();
  }
}

const boardOf = (page: PageClient) => JSON.stringify(sorted(page.board.toJSON()));
const sorted = (fields: object) => Object.fromEntries(Object.entries(fields).sort());

it("a session is, at every moment that is gone to, forth and back, what it was live: board, settings and who was there", async () => {
  let rooms = 0;
  await fc.assert(
    fc.asyncProperty(fc.array(step, { minLength: 3, maxLength: 25 }), fc.array(fc.nat(1000)), async (steps, jumps) => {
      const session = await Session.begin(`session${++rooms}`);
      try {
        for (const each of steps) await session.take(each);
        await session.note();
        const { room, hart, people, live } = session;
        const { length } = await manifest(server, room, hart);
        const entries = await allEntries(server, room, hart);
        const events = entries.map(readEvent);
        const moments = [BEGINNING];
        for (const event of events) moments.push(afterEvent(moments.at(-1) as Moment, event));
        const replay = new BoardReplay();
        replay.addUpdates({ from: 1, to: length }, updatesOf(entries));
        const noted = [...live.keys()];
        const gone = [...noted, ...noted.toReversed(), ...jumps.map((any) => noted[any % noted.length] as number)];
        for (const at of gone) {
          const then = live.get(at) as Live;
          const board = replay.goTo(at).getMap("board").toJSON();
          expect(JSON.stringify(sorted(board))).toBe(then.board);
          const { settings, here } = moments[at] as Moment;
          expect(JSON.stringify(settings)).toBe(then.settings);
          // People have their numbers in the order in which they came.
          expect(here.map((number) => people[number - 1]?.you.id).sort()).toEqual(then.here);
        }
        // The server's own account of each moment is the same; over HTTP it is had of stored boards alone.
        const kept = new RoomReplay(room, store, false);
        await kept.follow();
        for (const at of noted) expect(kept.momentAt(at, { as: "instructor", participant: null })).toEqual(moments[at]);
      } finally {
        session.end();
      }
    }),
    { numRuns: 25 },
  );
});
