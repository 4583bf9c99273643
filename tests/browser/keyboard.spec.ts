import { expect, test } from "@playwright/test";
import { BoardPage } from "./boardPage";

test("a circuit is drawn, asked about and read by keyboard alone", async ({ page }) => {
  const board = new BoardPage(page);
  await board.open("keyboard");
  await board.sheet.focus();
  const press = async (key: string, times: number) => {
    for (let i = 0; i < times; i += 1) await page.keyboard.press(key);
  };
  const stretch = async (key: string, value: string) => {
    await page.keyboard.press("Enter");
    await press(key, 4);
    await page.keyboard.press("Enter");
    await board.typeValue(value);
    await expect(board.sheet).toBeFocused();
  };
  // The first arrow key shows the ring; then round a square: 6 V upwards, 2 kΩ, 1 kΩ, a wire back.
  await press("ArrowDown", 5);
  await stretch("ArrowUp", "6 V");
  await stretch("ArrowRight", "2k");
  await stretch("ArrowDown", "1k");
  await stretch("ArrowLeft", "");
  await expect(board.words()).toHaveText([
    "V1voltage source of 6 V, + at node a, − at node c",
    "R1resistor of 2 kΩ, between node a and node b",
    "R2resistor of 1 kΩ, between node b and node c",
  ]);
  // Choosing R2 in words opens its slip; its voltage is 6 V × 1/3 = 2 V.
  await board.button("R2").focus();
  await page.keyboard.press("Enter");
  await board.button("Want its voltage").focus();
  await page.keyboard.press("Enter");
  await board.expectValue("total", "Vx = 2 V");
});
