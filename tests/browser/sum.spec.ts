import { expect, test } from "@playwright/test";
import { BoardPage } from "./boardPage";

// The example's own answers: V1 60 mA, I1 −20 mA, V2 −15 mA, together 25 mA (shared/examples/three-sources.json).

test("sources that are put together have a card of their own, in every browser, until it is taken away", async ({
  page,
  browser,
  baseURL,
}) => {
  const [a, b] = [new BoardPage(page), new BoardPage(await browser.newPage({ baseURL: baseURL ?? "" }))];
  const code = await a.start("Ana", { kind: "example", id: "three-sources" });
  await b.join(code, "Ben");
  await a.button("Together …").click();
  const sheet = page.getByRole("dialog", { name: "Sources together" });
  await sheet.getByRole("checkbox", { name: "V1" }).check();
  await expect(sheet.getByText("Choose two or more.")).toBeVisible();
  await sheet.getByRole("checkbox", { name: "V2" }).check();
  await sheet.getByRole("checkbox", { name: "I1" }).check();
  await expect(sheet.getByText("All sources together are the total")).toBeVisible();
  await sheet.getByRole("checkbox", { name: "I1" }).uncheck();
  await sheet.getByRole("button", { name: "Make the card" }).click();
  for (const board of [a, b]) {
    // 60 mA − 15 mA.
    await board.expectValue("V1+V2", "Iy′ + Iy‴ = 45 mA");
    await board.expectValue("total", "Iy = 25 mA");
  }
  await b.card("V1+V2").click();
  await expect(b.page.getByText("Only V1 and V2 act. I1 zeroed.")).toBeVisible();
  await expect(b.page.getByRole("region", { name: "The answers in words" })).toContainText(
    "V1 and V2 together give 45 mA.",
  );
  await b.button("Take away the card “V1 and V2 together”").click();
  for (const board of [a, b]) await expect(board.card("V1+V2")).toBeHidden();
  await b.page.close();
});

test("each addend is shown as a factor times its source when that is asked for", async ({ page }) => {
  const board = new BoardPage(page);
  await board.start("Ana", { kind: "example", id: "three-sources" });
  await expect(board.card("V1")).not.toContainText("× 15 V");
  await board.button("Factors").click();
  // 60 mA / 15 V = 4 mS; −20 mA / 200 mA = −1/10; −15 mA / 9 V = −5/3 mS.
  await expect(board.card("V1")).toContainText("= 4 mS × 15 V");
  await expect(board.card("I1")).toContainText("= −1/10 × 200 mA");
  await expect(board.card("V2")).toContainText("= −5/3 mS × 9 V");
  await board.button("Factors").click();
  await expect(board.card("V1")).not.toContainText("× 15 V");
});

test("cards are gone through and opened by the keyboard", async ({ page }) => {
  const board = new BoardPage(page);
  await board.start("Ana", { kind: "example", id: "three-sources" });
  await board.card("V1").focus();
  await page.keyboard.press("ArrowRight");
  await expect(board.card("I1")).toBeFocused();
  await page.keyboard.press("Enter");
  await expect(page.getByText("Only I1 acts. V1 and V2 zeroed.")).toBeVisible();
  await page.keyboard.press("End");
  await expect(board.card("total")).toBeFocused();
  await page.keyboard.press("Home");
  await expect(board.card("V1")).toBeFocused();
});

test("of several wanted quantities one is in focus, and the answers in words have all", async ({ page }) => {
  const board = new BoardPage(page);
  await board.start("Ana");
  // A divider: 9 V over 1 kΩ and 2 kΩ carries 3 mA, and has 6 V across the 2 kΩ.
  await board.stretch([3, 10], [3, 6], "9 V");
  await board.stretch([3, 6], [9, 6], "1k");
  await board.stretch([9, 6], [9, 10], "2k");
  await board.stretch([3, 10], [9, 10], "");
  await board.click([9, 8]);
  await board.button("Want its current").click();
  await board.button("Want its voltage").click();
  await board.expectValue("total", "Ix = 3 mA");
  await page.getByLabel("Wanted", { exact: true }).selectOption("Vx");
  await board.expectValue("total", "Vx = 6 V");
  const answers = page.getByRole("region", { name: "The answers in words" });
  await expect(answers.getByRole("heading", { level: 3 })).toHaveCount(2);
  await expect(answers).toContainText("The one source gives 3 mA.");
  await expect(answers).toContainText("The one source gives 6 V.");
});
