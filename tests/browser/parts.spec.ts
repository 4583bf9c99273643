import { expect, test } from "@playwright/test";
import { BoardPage } from "./boardPage";

/**
 * V1 (2 V) drives R1 (1 kΩ); a current source of 3 times R1's current drives R2 (1 kΩ).
 *
 *   (4,6)─R1─(10,6)          (16,6)─┬─wire─(20,6)
 *    V1        wire            Id1  │      R2          By hand: I = 2 V / 1 kΩ = 2 mA, so 6 mA through R2: 6 V
 *   (4,12)─────┴────────────────────┴───────
 */
async function drawAmplifier(board: BoardPage): Promise<void> {
  await board.stretch([4, 12], [4, 6], "2 V");
  await board.stretch([4, 6], [10, 6], "1k");
  await board.stretch([10, 6], [10, 12], "");
  await board.stretch([20, 6], [20, 12], "1k");
  await board.stretch([16, 6], [20, 6], "");
  await board.stretch([4, 12], [20, 12], "");
  await board.tool("Reference");
  await board.click([13, 12]);
}

test("a dependent source is drawn from the sheet and follows what is picked on the drawing", async ({ page }) => {
  const board = new BoardPage(page);
  await board.open("dependent");
  await drawAmplifier(board);
  await board.tool("Stretch");
  await board.part("Dependent current source, of a current");
  await board.drag([16, 12], [16, 6]);
  await expect(page.getByTestId("mode")).toContainText("It follows a current: click the part or wire that carries it.");
  await board.click([7, 6]);
  await page.getByLabel("Gain").fill("3");
  await page.getByLabel("Gain").press("Enter");
  await expect(board.words().nth(3)).toHaveText(
    "Id1dependent current source, driving current from node 0 into node b, gain 3, following the current of R1",
  );
  await board.click([20, 9]);
  await board.button("Want its voltage").click();
  await board.expectValue("total", "Vx = 6 V");
  // Counted the other way, its current and the answer turn round.
  await board.click([16, 9]);
  await board.button("Count it the other way").click();
  await board.expectValue("total", "Vx = −6 V");
});

test("a control that is a voltage is picked by two points, by keyboard alone", async ({ page }) => {
  const board = new BoardPage(page);
  await board.open("dependent-keys");
  await drawAmplifier(board);
  await board.tool("Stretch");
  await board.button("More parts…").press("Enter");
  await page.getByRole("button", { name: /^Dependent current source, of a voltage/ }).press("Enter");
  await board.sheet.focus();
  await board.ringTo([16, 12]);
  await page.keyboard.press("Enter");
  await board.ringTo([16, 6]);
  await page.keyboard.press("Enter");
  await expect(page.getByTestId("mode")).toContainText("It follows a voltage");
  await board.ringTo([4, 6]);
  await page.keyboard.press("Enter");
  await board.ringTo([10, 6]);
  await page.keyboard.press("Enter");
  await page.getByLabel("Gain").fill("2 mS");
  await page.getByLabel("Gain").press("Enter");
  await expect(board.words().nth(3)).toContainText("gain 2 mS, following the voltage between two nodes");
  await board.click([20, 9]);
  await board.button("Want its voltage").click();
  // 2 mS × 2 V × 1 kΩ = 4 V.
  await board.expectValue("total", "Vx = 4 V");
});

test("an op amp is turned and mirrored before it is placed, by pointer and by key", async ({ page }) => {
  const board = new BoardPage(page);
  await board.open("op-amp");
  await board.part("Op amp");
  await board.button("Mirror").click();
  await board.click([10, 8]);
  // Mirrored, its output is on the left: a wire from there ends on it.
  await board.tool("Stretch");
  await board.stretch([4, 8], [8, 8], "1k");
  await expect(board.words()).toHaveText([
    "A1ideal op amp, + input at node d, − input at node a, output at node c",
    "R1resistor of 1 kΩ, between node b and node c",
  ]);
});

test("a click opens and closes a switch", async ({ page }) => {
  const board = new BoardPage(page);
  await board.open("switch");
  await board.part("Switch");
  await board.drag([6, 6], [10, 6]);
  await expect(board.words()).toHaveText(["S1open switch between node a and node b"]);
  await board.click([8, 6]);
  await expect(board.words()).toHaveText(["S1closed switch between node a and node b"]);
  await board.click([8, 6]);
  await expect(board.words()).toHaveText(["S1open switch between node a and node b"]);
});

test("a node gets a name of its own", async ({ page }) => {
  const board = new BoardPage(page);
  await board.open("node-name");
  await board.stretch([6, 6], [10, 6], "1k");
  await board.part("Node name");
  await board.click([10, 6]);
  await page.getByLabel("Name of the node").fill("out");
  await page.keyboard.press("Enter");
  await expect(board.words()).toHaveText(["R1resistor of 1 kΩ, between node a and node out"]);
});

test("quantities of every kind are asked for and picked; one is in focus", async ({ page }) => {
  const board = new BoardPage(page);
  await board.open("ask");
  await board.stretch([4, 12], [4, 6], "6 V");
  await board.stretch([4, 6], [10, 6], "2k");
  await board.stretch([10, 6], [10, 12], "1k");
  await board.stretch([4, 12], [10, 12], "");
  await board.tool("Reference");
  await board.click([7, 12]);
  // The voltage at a node: to the reference node. 6 V × 1/3 = 2 V.
  await board.ask("A voltage");
  await board.click([10, 6]);
  await board.button("To the reference node").click();
  await board.expectValue("total", "Vx = 2 V");
  // The power of R2: 2 V × 2 mA = 4 mW.
  await board.ask("A power");
  await board.click([10, 9]);
  await board.button("Ask…").click();
  await board.button("Put Px in focus").click();
  await page.keyboard.press("Escape");
  await board.expectValue("total", "Px = 4 mW");
  // Seen from R2's ends, R2 itself left in: 2 kΩ ∥ 1 kΩ = 666.7 Ω.
  await board.ask("An equivalent resistance");
  await board.click([10, 6]);
  await board.click([10, 12]);
  await board.button("Ask…").click();
  await board.button("Put Rx in focus").click();
  await page.keyboard.press("Escape");
  await board.expectValue("total", "Rx ≈ 666.7 Ω");
  await board.button("Ask…").click();
  await expect(page.getByRole("list", { name: "Wanted now" }).getByRole("listitem")).toHaveCount(3);
  await board.button("Px is not wanted").click();
  await expect(page.getByRole("list", { name: "Wanted now" }).getByRole("listitem")).toHaveCount(2);
});
