import { expect, type Page, test } from "@playwright/test";
import { BoardPage } from "./boardPage";

test("dark paper and IEEE symbols are kept for this browser, and print is black on white all the same", async ({
  page,
}) => {
  const board = new BoardPage(page);
  await board.open("demo");
  await board.expectValue("total", "Iy = 25 mA");
  const root = page.locator("html");
  // R1 of the demo room as a thumbnail draws it: a rectangle is closed, a zigzag is not.
  const rectangles = page.locator('[data-card="total"] path[d$="Z"][stroke-width]');
  const before = await rectangles.count();
  await board.button("Paper…").click();
  await page.getByLabel("Dark paper").check();
  await page.getByLabel("IEEE 315").check();
  await page.keyboard.press("Escape");
  await expect(root).toHaveAttribute("data-paper", "dark");
  await expect.poll(() => rectangles.count()).toBeLessThan(before);
  await page.reload();
  await expect(board.sheet).toBeVisible();
  await expect(root).toHaveAttribute("data-paper", "dark");
  await expectDarkOutside(page);

  await board.enter("demo");
  await board.card("V1").click();
  const caption = page.getByText("Only V1 acts. I1 and V2 zeroed.");
  await page.emulateMedia({ media: "print" });
  const printed = page.locator('svg[class*="printed"]');
  await expect(printed).toBeVisible();
  const ink = await printed
    .locator("text")
    .filter({ hasText: "R1" })
    .first()
    .evaluate((text) => getComputedStyle(text).fill);
  expect(ink).toBe("rgb(0, 0, 0)");
  expect(await page.locator("body").evaluate((body) => getComputedStyle(body).backgroundColor)).toBe(
    "rgb(255, 255, 255)",
  );
  const [words, drawing] = [await caption.boundingBox(), await printed.boundingBox()];
  if (!words || !drawing) throw new Error("caption and drawing are to be printed");
  expect(words.y + words.height).toBeLessThanOrEqual(drawing.y);
  // From the head of the sheet down: the problem, the drawing, the sum, the working.
  const order = [
    page.getByRole("region", { name: "The problem" }),
    printed,
    page.locator('[data-card="total"]'),
    page.getByRole("region", { name: /^Working/ }),
  ];
  const tops = await Promise.all(order.map(async (each) => (await each.boundingBox())?.y ?? Number.NaN));
  expect([...tops].sort((a, b) => a - b)).toEqual(tops);
  await page.emulateMedia({ media: "screen" });
  await expect(printed).toBeHidden();
});

/** The pages outside of rooms are on dark paper as well, before any script of theirs has come. */
async function expectDarkOutside(page: Page): Promise<void> {
  await page.route(/\/_next\/static\/.*\.js/, (route) => route.abort());
  for (const address of ["/", "/nowhere"]) {
    await page.goto(address);
    await expect(page.locator("body")).toHaveCSS("background-color", "rgb(17, 21, 26)");
  }
  await page.unrouteAll();
}
