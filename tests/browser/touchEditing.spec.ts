import { expect, test } from "@playwright/test";
import { BoardPage } from "./boardPage";

test.use({ viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true });

test("by touch on a phone a small circuit is drawn, changed, moved and deleted", async ({ page }) => {
  const board = new BoardPage(page);
  await board.open("touch");
  const tap = async (at: readonly [number, number]) => {
    const { x, y } = await board.spot(at);
    await page.touchscreen.tap(x, y);
  };
  const line = async (from: readonly [number, number], to: readonly [number, number], value: string) => {
    await tap(from);
    await tap(to);
    await board.typeValue(value);
  };
  await line([1, 8], [1, 3], "6 V");
  await line([1, 3], [6, 3], "2k");
  await line([6, 3], [6, 8], "1k");
  await line([1, 8], [6, 8], "");
  const words = [
    "V1voltage source of 6 V, + at node a, − at node c",
    "R1resistor of 2 kΩ, between node a and node b",
    "R2resistor of 1 kΩ, between node b and node c",
  ];
  await expect(board.words()).toHaveText(words);

  // A tap's click comes a while after the finger is lifted, and the next touch may come before it.
  await board.button("Select").tap();
  await expect(board.button("Select")).toHaveAttribute("aria-pressed", "true");
  await tap([6, 6]);
  await page.getByLabel("Value", { exact: true }).fill("3k");
  await page.getByLabel("Value", { exact: true }).press("Enter");
  await expect(board.words().nth(2)).toHaveText("R2resistor of 3 kΩ, between node b and node c");
  await board.button("Move").tap();
  // The slip makes way for what is carried.
  await expect(page.getByTestId("slip")).toBeHidden();
  await tap([8, 6]);
  await expect(board.words().nth(2)).toHaveText("R2resistor of 3 kΩ, between node b and node c");
  await board.button("Delete").tap();
  await expect(board.words()).toHaveCount(2);
  const overflow = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
  expect(overflow).toBe(0);
});
