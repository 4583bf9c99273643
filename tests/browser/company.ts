import { type Browser, type BrowserContextOptions, test as base, expect, type Locator } from "@playwright/test";
import { WebSocket } from "ws";
import { WebsocketProvider } from "y-websocket";
import * as Y from "yjs";
import { BoardPage } from "./boardPage";

type Grid = readonly [x: number, y: number];

/** Somebody in a room, in a browser context of their own: their cookie is who they are. */
export class Somebody extends BoardPage {
  /** The ink sheet, which is there while an ink tool is in hand. */
  readonly ink: Locator = this.page.getByRole("application", { name: "Ink on the board" });
  readonly here: Locator = this.page.getByRole("list", { name: "Here now" });
  /** What ink there is, in words, besides notes. */
  readonly inkWords: Locator = this.page.getByTestId("ink-words");
  readonly notes: Locator = this.page.getByRole("list", { name: "Words on the board" }).getByRole("listitem");

  static async in(browser: Browser, baseURL: string | undefined, options: BrowserContextOptions = {}) {
    const context = await browser.newContext({
      viewport: { width: 1440, height: 900 },
      ...options,
      baseURL: baseURL ?? "",
    });
    return new Somebody(await context.newPage());
  }

  /** Takes an ink tool in hand. */
  async take(word: string): Promise<void> {
    const isInMargin = ["Ink", "Words", "Point"].includes(word);
    await this.button(isInMargin ? word : "Ink").click();
    if (!isInMargin) await this.button(word).click();
    await expect(this.ink).toBeVisible();
  }

  /** Draws by mouse through grid points; the button stays down where `isLifted` is false. */
  async draw(points: readonly Grid[], isLifted = true): Promise<void> {
    const [first, ...rest] = await Promise.all(points.map((point) => this.spot(point)));
    if (!first) return;
    await this.page.mouse.move(first.x, first.y);
    await this.page.mouse.down();
    for (const { x, y } of rest) await this.page.mouse.move(x, y, { steps: 6 });
    if (isLifted) await this.page.mouse.up();
  }

  async write(at: Grid, words: string): Promise<void> {
    await this.take("Words");
    await this.click(at);
    const field = this.page.getByLabel("Words for the board");
    await field.fill(words);
    await field.press("Enter");
    await expect(field).toBeHidden();
  }

  /** Waits until a pixel of this colour is, or is not, painted within a few pixels of a grid point, on any canvas of the board. */
  async expectPaint(at: Grid, colour: string, isThere = true): Promise<void> {
    const { x, y } = await this.spot(at);
    const look = () => this.page.evaluate(hasPaint, { x, y, colour });
    await expect.poll(look, { message: `${colour} at ${at.join(", ")}` }).toBe(isThere);
  }

  /** Where another's pointer is drawn, in grid steps of the board. */
  async cursorOf(name: string): Promise<Grid | null> {
    const box = await this.page.locator(`[data-cursor="${name}"] svg`).boundingBox();
    const [origin, one] = [await this.spot([0, 0]), await this.spot([1, 0])];
    const step = one.x - origin.x;
    // The picture of a pointer begins one eighteenth before its tip.
    const tip = box && { x: box.x + box.width / 18, y: box.y + box.height / 18 };
    return tip && [(tip.x - origin.x) / step, (tip.y - origin.y) / step];
  }

  /** The document as a client of anybody's making joins it, with this person's cookie. */
  async rawDocument(room: string): Promise<{ readonly doc: Y.Doc; readonly close: () => void }> {
    const cookies = await this.page.context().cookies();
    const cookie = cookies.map(({ name, value }) => `${name}=${value}`).join("; ");
    const { origin } = new URL(this.page.url());
    class WithCookie extends WebSocket {
      constructor(address: string, protocols?: string[]) {
        super(address, protocols ?? [], { headers: { Cookie: cookie, Origin: origin } });
      }
    }
    const doc = new Y.Doc();
    const provider = new WebsocketProvider(`${origin.replace("http", "ws")}/sync`, room, doc, {
      WebSocketPolyfill: WithCookie as unknown as typeof globalThis.WebSocket,
      disableBc: true,
    });
    await new Promise<void>((resolve) => provider.once("sync", () => resolve()));
    return { doc, close: () => provider.destroy() };
  }

  async leave(): Promise<void> {
    await this.page.context().close();
  }
}

/** Tests whose people leave when they are over. */
export const test = base.extend<{
  somebody: (options?: BrowserContextOptions) => Promise<Somebody>;
  /** A blank room of Ana's, with Ben in it as a learner. */
  pair: { readonly ana: Somebody; readonly ben: Somebody; readonly room: string };
}>({
  somebody: async ({ browser, baseURL }, provide) => {
    const people: Somebody[] = [];
    await provide(async (options) => {
      const person = await Somebody.in(browser, baseURL, options);
      people.push(person);
      return person;
    });
    await Promise.all(people.map((person) => person.leave()));
  },
  pair: async ({ somebody }, provide) => {
    const [ana, ben] = [await somebody(), await somebody()];
    const room = await ana.start("Ana");
    await ben.join(room, "Ben");
    await provide({ ana, ben, room });
  },
});

/** Runs in the page. Canvases are translucent, so a colour counts where it is the pixel's own, whatever its opacity. */
function hasPaint({ x, y, colour }: { x: number; y: number; colour: string }): boolean {
  const wanted = [1, 3, 5].map((i) => Number.parseInt(colour.slice(i, i + 2), 16));
  const reach = 5;
  for (const canvas of document.querySelectorAll("canvas")) {
    const box = canvas.getBoundingClientRect();
    const ratio = canvas.width / box.width;
    const context = canvas.getContext("2d");
    if (!context || x < box.left || y < box.top || x > box.right || y > box.bottom) continue;
    const [left, top] = [(x - box.left - reach) * ratio, (y - box.top - reach) * ratio];
    const { data } = context.getImageData(left, top, 2 * reach * ratio, 2 * reach * ratio);
    for (let i = 0; i < data.length; i += 4) {
      const isOpaque = (data[i + 3] ?? 0) > 40;
      if (isOpaque && wanted.every((value, k) => Math.abs(value - (data[i + k] ?? 0)) < 14)) return true;
    }
  }
  return false;
}
