import { test as base, type Locator, type Page } from "@playwright/test";
import { BoardPage } from "./boardPage";

/** A page for somebody else, closed when the test is over. Narrow ones are a phone's. */
type NewPage = (width?: number, height?: number) => Promise<Page>;

/** A room on the example, with its instructor before the test's own page. */
export type Classroom = {
  readonly ana: BoardPage;
  readonly code: string;
  /** Brings a learner in, on a page of their own. */
  readonly join: (name: string, width?: number, height?: number) => Promise<BoardPage>;
};

export const test = base.extend<{ newPage: NewPage; classroom: Classroom }>({
  newPage: async ({ browser, baseURL }, provide) => {
    const pages: Page[] = [];
    await provide(async (width = 1280, height = 800) => {
      const hasTouch = width < 600;
      const page = await browser.newPage({ baseURL: baseURL ?? "", viewport: { width, height }, hasTouch });
      pages.push(page);
      return page;
    });
    await Promise.all(pages.map((page) => page.close()));
  },
  classroom: async ({ page, newPage }, provide) => {
    const ana = new BoardPage(page);
    const code = await ana.start("Ana", { kind: "example", id: "three-sources" });
    await provide({
      ana,
      code,
      join: async (name, width, height) => {
        const board = new BoardPage(await newPage(width, height));
        await board.join(code, name);
        return board;
      },
    });
  },
});

/** Types a value at a card and hands it in by Enter. */
export async function tryValue(board: BoardPage, card: string, text: string): Promise<void> {
  await board.tryField(card).fill(text);
  await board.tryField(card).press("Enter");
}

/** What stands about tries at the card of this key: whoever made the newest, what they tried, and what is said of it. */
export const saidAt = (board: BoardPage, key: string): Locator =>
  board.page.locator(`div:has(> [data-card="${key}"])`).locator("[aria-live]");
