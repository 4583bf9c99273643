import { expect, type Page, test } from "@playwright/test";
import { BoardPage } from "./boardPage";
import { auditFocus, auditPage } from "./pageAudit";

async function exampleRoom(page: Page): Promise<BoardPage> {
  const board = new BoardPage(page);
  await board.start("Ana", { kind: "example", id: "three-sources" });
  await board.expectValue("total", "Iy = 25 mA");
  return board;
}

test("the first page has no fault that the audit knows", async ({ page }) => {
  await page.goto("/");
  await page.getByRole("button", { name: "Start with a blank page" }).click();
  await expect(page.getByText("Type your name first")).toBeVisible();
  expect(await auditPage(page)).toEqual([]);
  expect(await auditFocus(page, 12)).toEqual([]);
});

test("the door of a room, and the page of a refusal, have none", async ({ page, context }) => {
  const code = await new BoardPage(page).start("Ana");
  await context.clearCookies();
  await page.goto(`/room/${code}`);
  await page.getByRole("button", { name: "Join", exact: true }).click();
  await expect(page.getByText("Type a name first.")).toBeVisible();
  expect(await auditPage(page)).toEqual([]);
  expect(await auditFocus(page, 5)).toEqual([]);
  await page.goto("/room/zzzzzz");
  await expect(page.getByRole("heading", { name: "There is no room zzzzzz" })).toBeVisible();
  expect(await auditPage(page)).toEqual([]);
  await page.goto("/nowhere");
  expect(await auditPage(page)).toEqual([]);
});

test("a room has none, and neither have its sheets", async ({ page }) => {
  const board = await exampleRoom(page);
  expect(await auditPage(page)).toEqual([]);
  expect(await auditFocus(page, 30)).toEqual([]);
  for (const word of ["Files", "Class", "Invite"] as const) {
    await board.sheetOf(word);
    expect(await auditPage(page), word).toEqual([]);
    expect(await auditFocus(page, 5), word).toEqual([]);
    await board.closeSheet();
    await expect(board.button(word)).toBeFocused();
  }
  await board.card("V1").click();
  await board.button("R1").click();
  await expect(page.getByTestId("slip")).toBeVisible();
  expect(await auditPage(page)).toEqual([]);
});

test("a room with something to mend, and one that is not connected, have none", async ({ page, context }) => {
  const board = new BoardPage(page);
  await board.start();
  await board.stretch([4, 4], [8, 4], "1k");
  await board.click([6, 4]);
  await page.getByLabel("Value", { exact: true }).fill("");
  await page.getByLabel("Value", { exact: true }).press("Enter");
  await expect(page.getByRole("region", { name: "To mend" })).toBeVisible();
  await context.setOffline(true);
  expect(await auditPage(page)).toEqual([]);
});

test("at twice the size of everything nothing is cut off sideways", async ({ browser, baseURL }) => {
  // 200 % of a page 1280 px wide is a page 640 px wide.
  const page = await browser.newPage({
    baseURL: baseURL ?? "",
    viewport: { width: 640, height: 400 },
    deviceScaleFactor: 2,
  });
  await page.goto("/");
  const overflow = () => page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
  expect(await overflow()).toBe(0);
  const board = await exampleRoom(page);
  expect(await overflow()).toBe(0);
  for (const word of ["Files", "Class", "Invite"] as const) {
    const sheet = await board.sheetOf(word);
    expect(await sheet.evaluate((element) => element.scrollWidth - element.clientWidth)).toBe(0);
    await board.closeSheet();
  }
  await page.close();
});

test("the circuit and every answer are there as text", async ({ page }) => {
  const board = await exampleRoom(page);
  await expect(board.words().first()).toHaveText("V1voltage source of 15 V, + at node p, − at node 0");
  await expect(board.words()).toHaveCount(8);
  const answers = page.getByRole("region", { name: "The answers in words" });
  await expect(answers.getByRole("heading", { name: "Iy, current through R3 from a to b" })).toBeVisible();
  await expect(answers.getByRole("listitem")).toHaveText([
    "V1 alone gives 60 mA, which is 4 mS × 15 V.",
    "I1 alone gives −20 mA, which is −1/10 × 200 mA.",
    "V2 alone gives −15 mA, which is −5/3 mS × 9 V.",
    "All sources together give 25 mA.",
  ]);
});

test("what others change is told to whoever listens, once it has come to rest", async ({ page, browser, baseURL }) => {
  const [a, b] = [await exampleRoom(page), new BoardPage(await browser.newPage({ baseURL: baseURL ?? "" }))];
  await b.join(new URL(page.url()).pathname.split("/").at(-1) ?? "", "Ben");
  const news = b.page.getByTestId("announcer");
  await expect(news).toHaveAttribute("aria-live", "polite");
  await expect(news).toBeEmpty();
  await a.button("V1").click();
  await page.getByLabel("Value", { exact: true }).fill("30 V");
  await page.getByLabel("Value", { exact: true }).press("Enter");
  // Twice 15 V gives twice 60 mA, and so 85 mA in all.
  await expect(news).toHaveText("V1 is now a voltage source of 30 V, + at node p, − at node 0. Iy = 85 mA.");
  await b.page.close();
});
