import * as Y from "yjs";
import { hashOfKey } from "../../../server/access";
import { demoBoard } from "../../../server/demoRoom";
import type { TryListed, TryOpened } from "../../../shared/messages";
import { get, post } from "../support/http";
import { INSTRUCTOR, joinPage, PageClient } from "../support/pageClient";
import { INSTRUCTOR_KEY, type TestServer } from "../support/testServer";
import { until } from "../support/until";

/** A room with the demo board (Iy is 60 mA of V1, −20 mA of I1 and −15 mA of V2, 25 mA in all), and tries of it. */
export class TryRoom {
  readonly #pages: PageClient[] = [];

  constructor(
    readonly server: TestServer,
    readonly name: string,
  ) {}

  static async open(server: TestServer, name: string): Promise<{ room: TryRoom; hart: PageClient; ann: PageClient }> {
    await server.directory.create(name, hashOfKey(INSTRUCTOR_KEY));
    const room = new TryRoom(server, name);
    const hart = await room.join(INSTRUCTOR);
    const ann = await room.join({ name: "Ann" });
    Y.applyUpdate(hart.doc, demoBoard());
    await until("ann has the board", () => ann.doc.getMap("parts").size > 0);
    return { room, hart, ann };
  }

  async join(asked: Parameters<typeof joinPage>[2]): Promise<PageClient> {
    return this.#kept(await joinPage(this.server.url, this.name, asked));
  }

  /** Opens a page's own try over HTTP, and gives what that is answered with. */
  ask(cookie: string) {
    return post<TryOpened>(this.server, `/api/rooms/${this.name}/try`, {}, { cookie });
  }

  /** Opens the try of a page's person, and joins it. */
  async tryOf(page: PageClient): Promise<{ name: string; own: PageClient }> {
    const { body } = await this.ask(page.cookie);
    return { name: body.room, own: await this.enter(body.room, page) };
  }

  /** Joins a try as the person of a page. */
  enter(name: string, page: PageClient): Promise<PageClient> {
    return this.#kept(new PageClient(this.server.url, name, page)).joined();
  }

  list(cookie: string) {
    return get<readonly TryListed[]>(this.server, `/api/rooms/${this.name}/tries`, { cookie });
  }

  close(): void {
    for (const page of this.#pages) page.leave();
  }

  #kept(page: PageClient): PageClient {
    this.#pages.push(page);
    return page;
  }
}

/** Values of the first wanted quantity by card as a page has them, null where they are hidden. */
export function shownValues(page: PageClient): Readonly<Record<string, string | null>> {
  const [wanted] = page.answers.at(-1)?.report?.wanted ?? [];
  const addends = wanted?.addends.map(({ sources, value }) => [sources.join("+"), value?.text ?? null]) ?? [];
  return Object.fromEntries([...addends, ["total", wanted?.total?.text ?? null]]);
}

export const hasAnswers = (page: PageClient) => (page.answers.at(-1)?.report?.wanted.length ?? 0) > 0;
