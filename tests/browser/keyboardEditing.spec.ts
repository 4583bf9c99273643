import { expect, test } from "@playwright/test";
import { BoardPage } from "./boardPage";

test("the keyboard stays with a part's slip while its buttons come and go, and Escape gives it back to the board", async ({
  page,
}) => {
  const board = new BoardPage(page);
  await board.start();
  await board.stretch([4, 4], [8, 4], "1k");
  await board.button("R1").click();
  const slip = page.getByTestId("slip");
  const value = slip.getByLabel("Value", { exact: true });
  await value.focus();
  await value.fill("2k");
  await page.keyboard.press("Escape");
  await expect(value).toHaveValue("1k");
  await slip.getByRole("button", { name: "Want its current" }).focus();
  await page.keyboard.press("Enter");
  await expect(slip).toBeFocused();
  await page.keyboard.press("Escape");
  await expect(slip).toBeHidden();
  await expect(board.sheet).toBeFocused();
});

test("by keyboard alone parts are found, chosen, moved with their wires, turned, edited, copied and deleted", async ({
  page,
}) => {
  const board = new BoardPage(page);
  await board.open("keys-edit");
  const line = async (from: readonly [number, number], to: readonly [number, number], value: string) => {
    await board.ringTo(from);
    await page.keyboard.press("Enter");
    await board.ringTo(to);
    await page.keyboard.press("Enter");
    await board.typeValue(value);
  };
  await board.sheet.focus();
  await line([4, 12], [4, 6], "6 V");
  await line([4, 6], [10, 6], "2k");
  await line([10, 6], [10, 12], "1k");
  await line([4, 12], [10, 12], "");
  const words = [
    "V1voltage source of 6 V, + at node a, − at node c",
    "R1resistor of 2 kΩ, between node a and node b",
    "R2resistor of 1 kΩ, between node b and node c",
  ];
  await expect(board.words()).toHaveText(words);

  await board.button("Select").press("Enter");
  await board.sheet.focus();
  // N goes from part to part in reading order: R1 on top, then V1 and R2.
  await page.keyboard.press("Shift+N");
  await page.keyboard.press(" ");
  await expect(board.slip("R2, a resistor")).toBeVisible();
  await page.keyboard.press("ArrowRight");
  await page.keyboard.press("Shift+ArrowRight");
  await page.keyboard.press("T");
  await expect(board.words()).toHaveText(words);
  await page.keyboard.press("Enter");
  await page.getByLabel("Value of R2").fill("3k");
  await page.keyboard.press("Enter");
  await expect(board.words().nth(2)).toHaveText("R2resistor of 3 kΩ, between node b and node c");

  await page.keyboard.press("Control+d");
  await expect(board.words()).toHaveCount(4);
  await page.keyboard.press("Delete");
  await expect(board.words()).toHaveCount(3);
  await page.keyboard.press("Control+z");
  await expect(board.words()).toHaveCount(4);
  await page.keyboard.press("Control+Shift+z");
  await expect(board.words()).toHaveCount(3);
});

test("a bent wire is drawn by keyboard: Enter at each corner, B bends it, Escape takes a corner back", async ({
  page,
}) => {
  const board = new BoardPage(page);
  await board.open("keys-wire");
  await board.stretch([4, 4], [8, 4], "1k");
  await board.stretch([14, 10], [18, 10], "2k");
  await board.button("Wire").press("Enter");
  await board.sheet.focus();
  await board.ringTo([8, 4]);
  await page.keyboard.press("Enter");
  await board.ringTo([11, 4]);
  await page.keyboard.press("Enter");
  await board.ringTo([11, 2]);
  await page.keyboard.press("Enter");
  await page.keyboard.press("Escape");
  await board.ringTo([14, 10]);
  await page.keyboard.press("b");
  await page.keyboard.press("Enter");
  await expect(board.words()).toHaveText([
    "R1resistor of 1 kΩ, between node a and node b",
    "R2resistor of 2 kΩ, between node b and node c",
  ]);
  // Escape backs out one step at a time: of the wire, of the ring.
  await page.keyboard.press("Enter");
  await expect(page.getByTestId("mode")).toContainText("Each click adds a corner");
  await page.keyboard.press("Escape");
  await expect(page.getByTestId("mode")).not.toContainText("Each click adds a corner");
  await page.keyboard.press("Escape");
  await expect(board.sheet).not.toHaveAttribute("data-ring");
});

test("the list of keys opens by ? and goes by Escape, and the board has the keyboard again", async ({ page }) => {
  const board = new BoardPage(page);
  await board.open("keys-list");
  await board.sheet.focus();
  await page.keyboard.press("?");
  const sheet = page.getByRole("dialog", { name: "Keys" });
  await expect(sheet).toContainText("Back out one step");
  await page.keyboard.press("Escape");
  await expect(sheet).toBeHidden();
  await expect(board.sheet).toBeFocused();
});
