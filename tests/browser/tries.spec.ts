import { expect, type Locator, type Page, test } from "@playwright/test";
import { BoardPage } from "./boardPage";
import { auditPage } from "./pageAudit";

// The example's own answers: V1 60 mA, I1 −20 mA, V2 −15 mA, together 25 mA (shared/examples/three-sources.json).

/** A room whose answers are hidden, with its instructor, and a way for learners to come into it. */
async function hiddenRoom(page: Page, newPage: () => Promise<Page>) {
  const ana = new BoardPage(page);
  const code = await ana.start("Ana", { kind: "example", id: "three-sources" });
  await (await ana.sheetOf("Class")).getByLabel("All hidden until revealed").click();
  await ana.closeSheet();
  const join = async (name: string) => {
    const board = new BoardPage(await newPage());
    await board.join(code, name);
    return board;
  };
  return { ana, code, join };
}

/** Types a value at a card and hands it in by Enter. */
async function tryValue(board: BoardPage, card: string, text: string): Promise<void> {
  await board.tryField(card).fill(text);
  await board.tryField(card).press("Enter");
}

/** What stands about tries at the card of this key: whoever made the newest, what they tried, and what is said of it. */
const saidAt = (board: BoardPage, key: string): Locator =>
  board.page.locator(`div:has(> [data-card="${key}"])`).locator("[aria-live]");

test.describe("with an instructor and learners", () => {
  // Three browsers at once take their time on two busy cores.
  test.setTimeout(90_000);
  let pages: Page[] = [];
  let newPage: (width?: number, height?: number) => Promise<Page>;
  test.beforeEach(({ browser, baseURL }) => {
    pages = [];
    newPage = async (width = 1280, height = 800) => {
      const hasTouch = width < 600;
      const page = await browser.newPage({ baseURL: baseURL ?? "", viewport: { width, height }, hasTouch });
      pages.push(page);
      return page;
    };
  });
  test.afterEach(() => Promise.all(pages.map((page) => page.close())));

  test("a learner tries the wrong sign, then the right value; everybody sees it, and a reload keeps it", async ({
    page,
  }) => {
    const { ana, join } = await hiddenRoom(page, newPage);
    const [ben, cem] = [await join("Ben"), await join("Cem")];
    await expect(ana.tryField("I1 alone")).toBeHidden();

    await tryValue(ben, "I1 alone", "20 mA");
    await expect(saidAt(ben, "I1")).toHaveText("You: 20 mAThe size is right, the sign is turned round.");
    await expect(saidAt(cem, "I1")).toHaveText("Ben: 20 mAThe size is right, the sign is turned round.");
    await expect(saidAt(ana, "I1")).toHaveText(
      "Ben: 20 mAThe size is right, the sign is turned round. One try so far.",
    );
    await expect(ben.tryField("I1 alone")).toHaveValue("20 mA");

    await tryValue(ben, "I1 alone", "-I1*(R4 || R5)/(R1||R2 + R3 + R4||R5)");
    await expect(saidAt(ben, "I1")).toContainText("Right.");
    await expect(saidAt(cem, "I1").locator('[data-mark="right"]')).toBeVisible();
    await expect(saidAt(ana, "I1")).toContainText("Right. 2 tries so far.");

    await cem.page.reload();
    await expect(saidAt(cem, "I1")).toContainText("Ben: -I1*(R4 || R5)/(R1||R2 + R3 + R4||R5)Right.");

    // Revealed, there is nothing left to try, and what was tried stands.
    await ana.page.getByRole("button", { name: "Reveal “I1 alone”" }).click();
    await ben.expectValue("I1", "Iy″ = −20 mA");
    await expect(ben.tryField("I1 alone")).toBeHidden();
    await expect(saidAt(ben, "I1")).toContainText("Right.");
  });

  test("what can't be read is told to whoever wrote it alone, and the total is tried like the addends", async ({
    page,
  }) => {
    const { ana, join } = await hiddenRoom(page, newPage);
    const ben = await join("Ben");
    await tryValue(ben, "All sources", "60 mA + 3 V");
    await expect(saidAt(ben, "total")).toHaveText("A current (A) and a voltage (V) can't be added.");
    await expect(ben.tryField("All sources")).toHaveAttribute("aria-invalid", "true");
    await tryValue(ben, "All sources", "60 mA − 20 mA − 15 mA");
    await expect(saidAt(ben, "total")).toHaveText("You: 60 mA − 20 mA − 15 mARight.");
    await expect(saidAt(ana, "total")).toContainText("One try so far.");
    // Text is text, whatever it looks like.
    await tryValue(ben, "V1 alone", "<b>60 mA</b>");
    await expect(saidAt(ben, "V1")).toHaveText('Behind "∠" a phase is expected, such as 45°.');
  });

  test("a try is marked when the circuit's answer is another by now", async ({ page }) => {
    const { ana, join } = await hiddenRoom(page, newPage);
    const ben = await join("Ben");
    await tryValue(ben, "V1 alone", "60 mA");
    await expect(saidAt(ben, "V1")).toContainText("Right.");
    await ana.tool("Select");
    await ana.words().filter({ hasText: "V1" }).getByRole("button").first().click();
    const value = ana.page.getByLabel("Value", { exact: true });
    await value.fill("30 V");
    await value.press("Enter");
    await expect(saidAt(ben, "V1")).toHaveText("You: 60 mATried before the circuit was changed.");
  });

  test("on a phone a learner answers by touch, and every target and label is as it should be", async ({ page }) => {
    const { join } = await hiddenRoom(page, () => newPage(390, 844));
    const ben = await join("Ben");
    await ben.tryField("V2 alone").tap();
    await expect(ben.tryField("V2 alone")).toBeFocused();
    await expect(ben.tryField("V2 alone")).toBeInViewport();
    await ben.page.keyboard.type("15 mA");
    await ben.page.getByRole("button", { name: "Try this value for Iy, V2 alone" }).tap();
    await expect(saidAt(ben, "V2")).toHaveText("You: 15 mAThe size is right, the sign is turned round.");
    await expect(saidAt(ben, "V2")).toBeInViewport();
    const width = await ben.page.evaluate(() => document.documentElement.scrollWidth);
    expect(width).toBeLessThanOrEqual(390);
    expect(await auditPage(ben.page)).toEqual([]);
  });

  test("an observer sees what is tried, and has no field", async ({ page, browser, baseURL }) => {
    const { ana, code, join } = await hiddenRoom(page, newPage);
    const ben = await join("Ben");
    await tryValue(ben, "V1 alone", "61 mA");
    const context = await browser.newContext({ baseURL: baseURL ?? "", viewport: { width: 1280, height: 800 } });
    const headers = { origin: new URL(ana.page.url()).origin };
    await context.request.post(`/api/rooms/${code}/join`, { data: { name: "Olga", as: "observer" }, headers });
    const olga = new BoardPage(await context.newPage());
    await olga.enter(code);
    await expect(saidAt(olga, "V1")).toHaveText("Ben: 61 mAThe sign is right, the size is 1.02 times the right one.");
    await expect(olga.tryField("V1 alone")).toBeHidden();
    await olga.expectValue("V1", "Iy′ = hidden until revealed");
    await context.close();
  });
});
