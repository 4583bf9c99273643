import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "@playwright/test";
import { BoardPage } from "./boardPage";

/** Read as files, since Node wants JSON modules marked and the project's bundlers do not. */
const EXAMPLE_FOLDER = join(import.meta.dirname, "../../shared/examples");
const EXAMPLES = readdirSync(EXAMPLE_FOLDER)
  .filter((file) => file.endsWith(".json"))
  .map((file) => ({ id: file, title: titleOf(readFileSync(join(EXAMPLE_FOLDER, file), "utf8")) }));

function titleOf(json: string): string {
  return (JSON.parse(json) as { readonly title: string }).title;
}

for (const { id, title } of EXAMPLES) {
  test(`the example ${id} opens with an answer and nothing to mend`, async ({ page }) => {
    await page.goto("/");
    await page.getByLabel("Your name, as the others see it").fill("Ana");
    await page.getByRole("button", { name: title, exact: true }).click();
    await expect(page.getByRole("heading", { name: title, level: 2 })).toBeVisible();
    await expect(page.getByTestId("value-total")).toContainText(/[=≈] \S/);
    await expect(page.getByTestId("value-total")).not.toContainText("no value");
    await expect(page.getByRole("region", { name: "To mend" })).toBeHidden();
  });
}

test("at 390 px nothing makes the page scroll sideways, and taps draw", async ({ browser, baseURL }) => {
  const context = await browser.newContext({
    baseURL: baseURL ?? "",
    viewport: { width: 390, height: 844 },
    hasTouch: true,
    isMobile: true,
  });
  const page = await context.newPage();
  const board = new BoardPage(page);
  await board.open("phone");
  for (const at of [
    [3, 6],
    [3, 2],
  ] as const) {
    const { x, y } = await board.spot(at);
    await page.touchscreen.tap(x, y);
  }
  await board.typeValue("9 V");
  await expect(board.words()).toHaveText(["V1voltage source of 9 V, + at node a, − at node b"]);
  await board.open("demo");
  await expect(board.card("total")).toBeVisible();
  const overflow = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
  expect(overflow).toBe(0);
  await context.close();
});

test("nothing is fetched from anywhere but this server", async ({ page, baseURL }) => {
  const hosts = new Set<string>();
  page.on("request", (request) => hosts.add(new URL(request.url()).host));
  await page.goto("/");
  await new BoardPage(page).open("demo");
  await expect(page.getByTestId("value-total")).toBeVisible();
  expect([...hosts].filter((host) => host !== "")).toEqual([new URL(baseURL ?? "").host]);
});

test("Enter behind one's name starts a room with a blank page", async ({ page }) => {
  await page.goto("/");
  const name = page.getByLabel("Your name, as the others see it");
  await name.press("Enter");
  await expect(page.getByText("Type your name first")).toBeVisible();
  await name.fill("Ana");
  await name.press("Enter");
  await expect(new BoardPage(page).sheet).toBeVisible();
  await expect(page.getByRole("heading", { name: "A blank page" })).toBeVisible();
});
