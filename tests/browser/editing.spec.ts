import { expect, test } from "@playwright/test";
import { BoardPage } from "./boardPage";

/** V1 6 V on the left, R1 2 kΩ on top, R2 1 kΩ on the right, one wire at the bottom with the reference symbol. */
async function drawDivider(board: BoardPage): Promise<void> {
  await board.stretch([4, 12], [4, 6], "6 V");
  await board.stretch([4, 6], [10, 6], "2k");
  await board.stretch([10, 6], [10, 12], "1k");
  await board.stretch([4, 12], [10, 12], "");
  await board.tool("Reference");
  await board.click([7, 12]);
}

const DIVIDER = [
  "V1voltage source of 6 V, + at node a, − at node 0",
  "R1resistor of 2 kΩ, between node a and node b",
  "R2resistor of 1 kΩ, between node b and node 0",
];

test("a wire takes a corner at each click, can be bent the other way, and ends where it joins something", async ({
  page,
}) => {
  const board = new BoardPage(page);
  await board.open("wire");
  await board.stretch([4, 4], [8, 4], "1k");
  await board.stretch([14, 10], [18, 10], "2k");
  await board.tool("Wire");
  await board.click([8, 4]);
  await board.click([11, 4]);
  await board.click([11, 12]);
  await board.button("Bend it the other way").click();
  await board.click([14, 10]);
  await expect(board.words()).toHaveText([
    "R1resistor of 1 kΩ, between node a and node b",
    "R2resistor of 2 kΩ, between node b and node c",
  ]);
  // In the open it ends by the word for it, and its end is then a place where another wire can join.
  await board.click([18, 10]);
  await board.click([22, 10]);
  await board.button("End it here").click();
  await board.tool("Stretch");
  await board.stretch([20, 10], [20, 14], "3k");
  await expect(board.words().nth(2)).toHaveText("R3resistor of 3 kΩ, between node c and node d");
});

test("a part that is drawn along a wire takes its place in it", async ({ page }) => {
  const board = new BoardPage(page);
  await board.open("along");
  await drawDivider(board);
  await board.tool("Stretch");
  await board.stretch([5, 12], [9, 12], "500");
  await expect(board.words()).toHaveText([
    "V1voltage source of 6 V, + at node a, − at node 0",
    "R1resistor of 2 kΩ, between node a and node b",
    "R2resistor of 1 kΩ, between node b and node 0",
    "R3resistor of 500 Ω, between node 0 and node 0",
  ]);
});

test("a part that is dragged takes its wires along, and undo puts it back in one step", async ({ page }) => {
  const board = new BoardPage(page);
  await board.open("drag");
  await drawDivider(board);
  await board.tool("Select");
  await board.drag([10, 9], [15, 11]);
  await expect(board.words()).toHaveText(DIVIDER);
  await board.click([15, 11]);
  await expect(board.slip("R2, a resistor")).toBeVisible();
  await page.keyboard.press("Escape");
  await board.button("Undo").click();
  await board.click([10, 9]);
  await expect(board.slip("R2, a resistor")).toBeVisible();
  await expect(board.words()).toHaveText(DIVIDER);
});

test("what is chosen is moved without dragging too: by the word for it and a click", async ({ page }) => {
  const board = new BoardPage(page);
  await board.open("click-move");
  await drawDivider(board);
  await board.tool("Select");
  await board.click([7, 6]);
  await board.button("Move").click();
  await expect(page.getByTestId("mode")).toContainText("Click where the middle of the selection is to go.");
  await board.click([7, 3]);
  await board.click([7, 3]);
  await expect(board.slip("R1, a resistor")).toBeVisible();
  await expect(board.words()).toHaveText(DIVIDER);
});

test("a box selects what lies in it, Shift adds, and all of it is turned, copied, pasted and deleted", async ({
  page,
}) => {
  const board = new BoardPage(page);
  await board.open("box");
  await drawDivider(board);
  await board.tool("Select");
  await board.drag([2, 4], [12, 8]);
  await expect(board.slip("R1, a resistor")).toBeVisible();
  await page.keyboard.down("Shift");
  await board.click([10, 9]);
  await page.keyboard.up("Shift");
  await expect(board.slip("2 pieces")).toBeVisible();
  await board.button("Turn").click();
  await expect(board.words()).toHaveText(DIVIDER);
  await board.button("Duplicate").click();
  await expect(board.words()).toHaveCount(5);
  await expect(board.words().nth(3)).toContainText("R3resistor of 2 kΩ");
  await board.button("Delete all").click();
  await expect(board.words()).toHaveText(DIVIDER);
});

test("parts go from one room to another by copy and paste", async ({ page, context }) => {
  await context.grantPermissions(["clipboard-read", "clipboard-write"]);
  const board = new BoardPage(page);
  await board.open("copy-from");
  await drawDivider(board);
  await board.sheet.focus();
  await page.keyboard.press("Control+a");
  await page.keyboard.press("Control+c");
  await board.open("copy-to");
  await board.sheet.focus();
  await page.keyboard.press("Control+v");
  await expect(board.words()).toHaveText(DIVIDER);
  // Pasted beside itself, it is a second circuit with names of its own.
  await board.button("Paste").click();
  await expect(board.words()).toHaveCount(6);
  await expect(board.words().nth(3)).toContainText("V2voltage source of 6 V");
});

test("a clipboard that holds something else is told as such", async ({ page, context }) => {
  await context.grantPermissions(["clipboard-read", "clipboard-write"]);
  const board = new BoardPage(page);
  await board.open("clipboard");
  await page.evaluate(() => navigator.clipboard.writeText("R1 4k7"));
  await board.button("Paste").click();
  await expect(page.getByTestId("mode")).toHaveText(
    "The clipboard holds no part of a circuit. Copy some on a board first.",
  );
});

test("a double click edits a value where it stands, and a name by F2", async ({ page }) => {
  const board = new BoardPage(page);
  await board.open("in-place");
  await drawDivider(board);
  await board.tool("Select");
  const { x, y } = await board.spot([10, 9]);
  await page.mouse.dblclick(x, y);
  const value = page.getByLabel("Value of R2");
  await expect(value).toBeFocused();
  await value.fill("nonsense");
  await expect(value).toHaveAttribute("aria-invalid", "true");
  await value.fill("4.7k");
  await value.press("Enter");
  await expect(board.words().nth(2)).toHaveText("R2resistor of 4.7 kΩ, between node b and node 0");
  await expect(board.sheet).toBeFocused();
  await page.keyboard.press("F2");
  await page.getByLabel("New name of R2").fill("Rload");
  await page.keyboard.press("Enter");
  await expect(board.words().nth(2)).toHaveText("Rloadresistor of 4.7 kΩ, between node b and node 0");
});

test("the paper is panned with the space bar, the middle button and the wheel, and zoomed and fitted", async ({
  page,
}) => {
  const board = new BoardPage(page);
  await board.open("pan");
  await drawDivider(board);
  const view = async () => (await board.sheet.getAttribute("data-view"))?.split(" ").map(Number) ?? [];
  const before = await view();
  await board.sheet.focus();
  await page.keyboard.down(" ");
  await board.drag([14, 4], [16, 4]);
  await page.keyboard.up(" ");
  const [scale = 1, left = 0, top = 0] = before;
  expect(await view()).toEqual([scale, left + 48 * scale, top]);
  await page.mouse.down({ button: "middle" });
  const { x, y } = await board.spot([16, 4]);
  await page.mouse.move(x, y + 30);
  await page.mouse.up({ button: "middle" });
  expect((await view())[2]).toBeCloseTo(top + 30, 5);
  await page.mouse.wheel(0, 30);
  await expect.poll(async () => (await view())[2]).toBeCloseTo(top, 5);
  await page.keyboard.press("+");
  expect((await view())[0]).toBeCloseTo(scale * 1.25, 5);
  await page.keyboard.press("PageDown");
  await page.keyboard.press("0");
  await expect(board.words()).toHaveText(DIVIDER);
});
