import { chromium, expect, type LaunchOptions, test } from "@playwright/test";
import { BoardPage } from "./boardPage";

/**
 * V1 12 V through R1 2 kΩ, I1 9 mA and V2 6 V through R2 3 kΩ all feed R3 6 kΩ; Ix is the current down through R3.
 *
 *   V1─R1─┬──────┬────┬─R2─V2        By hand, with 2 ∥ 3 ∥ 6 = 1 kΩ at the common node a:
 *         I1     R3                  V1 alone: va = 12 V × 1/2 = 6 V,  Ix′ = 6 V / 6 kΩ = 1 mA
 *   ──────┴──────┴────┴──────        I1 alone: va = 9 mA × 1 kΩ = 9 V, Ix″ = 1.5 mA
 *                                    V2 alone: va = 6 V × 1/3 = 2 V,   Ix‴ = 1/3 mA
 *                                    Ix = 1 + 3/2 + 1/3 = 17/6 mA = 2.8333… mA
 */
async function drawThreeSources(board: BoardPage): Promise<void> {
  await board.stretch([3, 12], [3, 6], "12 V");
  await board.stretch([3, 6], [9, 6], "2k");
  await board.stretch([9, 12], [9, 6], "9 mA");
  await board.stretch([9, 6], [15, 6], "");
  await board.stretch([15, 6], [15, 12], "6k");
  await board.stretch([15, 6], [21, 6], "3k");
  await board.stretch([21, 12], [21, 6], "6 V");
  await board.stretch([3, 12], [21, 12], "");
  await board.tool("Reference");
  await board.click([12, 12]);
  await board.tool("Stretch");
  await board.click([15, 9]);
  await board.button("Want its current").click();
}

const THREE_SOURCES = [
  "V1voltage source of 12 V, + at node a, − at node 0",
  "R1resistor of 2 kΩ, between node a and node b",
  "I1current source of 9 mA, driving current from node 0 into node b",
  "R2resistor of 6 kΩ, between node b and node 0",
  "R3resistor of 3 kΩ, between node b and node c",
  "V2voltage source of 6 V, + at node c, − at node 0",
];

test("what one browser draws by pointer stands in the other with every addend and the total", async ({
  page,
  baseURL,
  viewport,
  launchOptions,
}) => {
  const other = await chromium.launch(launchOptions as LaunchOptions);
  try {
    const [a, b] = [new BoardPage(page), new BoardPage(await other.newPage({ baseURL: baseURL ?? "", viewport }))];
    await a.open("two-browsers");
    await b.open("two-browsers");

    await drawThreeSources(a);
    for (const board of [a, b]) {
      await expect(board.words()).toHaveText(THREE_SOURCES);
      await board.expectValue("V1", "Ix′ = 1 mA");
      await board.expectValue("I1", "Ix″ = 1.5 mA");
      await board.expectValue("V2", "Ix‴ ≈ 333.3 µA");
      await board.expectValue("total", "Ix ≈ 2.833 mA");
    }

    // With I1 at 18 mA its addend doubles to 3 mA, and the total is 1 + 3 + 1/3 = 13/3 mA.
    await b.click([9, 9]);
    await b.page.getByLabel("Value", { exact: true }).fill("18 mA");
    await b.page.getByLabel("Value", { exact: true }).press("Enter");
    for (const board of [a, b]) {
      await board.expectValue("V1", "Ix′ = 1 mA");
      await board.expectValue("I1", "Ix″ = 3 mA");
      await board.expectValue("total", "Ix ≈ 4.333 mA");
    }
  } finally {
    await other.close();
  }
});

test("a card opens its circuit, with the other sources zeroed", async ({ page }) => {
  const board = new BoardPage(page);
  await board.open("cards");
  await drawThreeSources(board);
  await board.card("I1").click();
  await expect(page.getByText("Only I1 acts. V1 and V2 zeroed.")).toBeVisible();
  // With I1 alone the common node is at 9 mA × 1 kΩ = 9 V.
  const values = page.getByRole("region", { name: "Values with I1 alone" });
  await expect(values.getByRole("row", { name: "b = 9 V" })).toBeVisible();
  await board.card("total").click();
  await expect(page.getByRole("region", { name: "Values with all sources" })).toBeVisible();
});

test("turning the arrow round turns the sign of every addend", async ({ page }) => {
  const board = new BoardPage(page);
  await board.open("signs");
  await drawThreeSources(board);
  await board.button("Turn it").click();
  await board.expectValue("V1", "Ix′ = −1 mA");
  await board.expectValue("I1", "Ix″ = −1.5 mA");
  await board.expectValue("total", "Ix ≈ −2.833 mA");
});

test("a value that cannot be read is told beside its part and in the list, and undo takes it back", async ({
  page,
}) => {
  const board = new BoardPage(page);
  await board.open("problems");
  await drawThreeSources(board);
  await board.expectValue("V1", "Ix′ = 1 mA");
  await board.click([6, 6]);
  await page.getByLabel("Value", { exact: true }).fill("");
  await page.getByLabel("Value", { exact: true }).press("Enter");
  const list = page.getByRole("region", { name: "To mend" });
  await expect(list).toContainText("R1 has no value yet. Type one, for instance 3.3k.");
  await expect(board.sheet).toContainText("R1 has no value yet.");
  await board.button("Undo").click();
  await expect(list).toBeHidden();
  await board.expectValue("V1", "Ix′ = 1 mA");
});

test("a value that is typed and left without Enter is kept", async ({ page }) => {
  const board = new BoardPage(page);
  await board.open("leaving");
  await board.stretch([4, 4], [8, 4], "1k");
  await board.click([6, 4]);
  await page.getByLabel("Value", { exact: true }).fill("2.2k");
  await board.click([30, 16]);
  await expect(page.getByTestId("slip")).toBeHidden();
  await expect(board.words()).toHaveText(["R1resistor of 2.2 kΩ, between node a and node b"]);
});
