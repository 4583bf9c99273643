import { expect, test } from "@playwright/test";
import { BoardPage } from "./boardPage";
import { auditPage } from "./pageAudit";
import { ReplayPage } from "./replayPage";

// The example's own answers: V1 60 mA, I1 −20 mA, V2 −15 mA, together 25 mA (shared/examples/three-sources.json).

test.use({ viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true });

test("on a phone a chapter or a finding that is pressed has its board in sight", async ({ page }) => {
  const board = new BoardPage(page);
  const code = await board.start("Ana", { kind: "example", id: "three-sources" });
  await board.expectValue("total", "Iy = 25 mA");
  const replay = new ReplayPage(page);
  await replay.open(code);
  const still = page.getByRole("group", { name: "The board", exact: true });
  await replay.beside("Chapters");
  await replay.chapter(/The circuit gives Iy/).tap();
  await expect(still).toBeInViewport({ ratio: 1 });
  await replay.beside("Find");
  const find = page.getByRole("region", { name: "Find in the session" });
  await find.getByRole("searchbox").fill("R3");
  await find.getByRole("button", { name: /Ana places R3/ }).tap();
  await expect(still).toBeInViewport({ ratio: 1 });
  // Below the ruler, which sticks to the page's edge.
  const [ruler, shown] = [await replay.ruler.boundingBox(), await still.boundingBox()];
  expect(shown?.y).toBeGreaterThanOrEqual((ruler?.y ?? 0) + (ruler?.height ?? 0));
});

test("on a phone two moments that are compared have their boards one below the other, and then their sums", async ({
  page,
}) => {
  const board = new BoardPage(page);
  const code = await board.start("Ana", { kind: "example", id: "three-sources" });
  await board.expectValue("total", "Iy = 25 mA");
  const replay = new ReplayPage(page);
  await replay.open(code);
  await replay.ruler.focus();
  await page.keyboard.press("End");
  await replay.button("Hold to compare").tap();
  await replay.ruler.focus();
  await page.keyboard.press("Home");
  await expect(page.getByText("8 parts have changed.")).toBeVisible();
  const boxes = await Promise.all(
    [
      page.getByRole("group", { name: "The board", exact: true }),
      page.getByRole("group", { name: "The board of the held moment", exact: true }),
      page.getByRole("region", { name: "The sum", exact: true }),
      page.getByRole("region", { name: "The sum of the held moment" }),
    ].map(async (place) => (await place.boundingBox()) ?? { y: Number.NaN, height: 0 }),
  );
  for (const [index, { y, height }] of boxes.slice(0, -1).entries()) {
    expect(boxes[index + 1]?.y).toBeGreaterThanOrEqual(y + height);
  }
  expect((boxes[2]?.y ?? Number.NaN) - (boxes[0]?.y ?? Number.NaN)).toBeLessThan(844);
  expect(await auditPage(page)).toEqual([]);
  expect(await board.overflow()).toBe(0);
});

test("ink beside the circuit is in sight as well, and a link to no moment of the session says so", async ({ page }) => {
  const board = new BoardPage(page);
  const code = await board.start("Ana", { kind: "example", id: "three-sources" });
  await board.expectValue("total", "Iy = 25 mA");
  await board.button("Smaller").tap();
  await board.button("Smaller").tap();
  await board.button("Smaller").tap();
  await board.button("Words").tap();
  const { x, y } = await board.spot([2, 12]);
  await page.touchscreen.tap(x, y);
  const field = page.getByLabel("Words for the board");
  await field.fill("mind the sign");
  await field.press("Enter");
  await expect(field).toBeHidden();

  const replay = new ReplayPage(page);
  await replay.open(code, "?at=99999");
  await expect(
    page.getByText(/The link names moment 99999, but the session has only \d+\. This is its end\./),
  ).toBeVisible();
  await expect(page.getByText("mind the sign")).toBeInViewport({ ratio: 1 });
  await replay.open(code, "?at=later");
  await expect(page.getByText("“later” in the link names no moment. This is the beginning.")).toBeVisible();
  await replay.button("Next edit").tap();
  await expect(page.getByText("names no moment")).toBeHidden();
});
