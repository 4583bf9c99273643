import { expect, test } from "@playwright/test";
import { BoardPage } from "./boardPage";
import { Line } from "./line";

const LOST =
  /^Not connected since \d\d:\d\d.* What you draw is kept in this browser and sent when the connection is back\.$/;

test("a page that loses its connection says since when, keeps what is drawn over a reload, and sends it on return", async ({
  browser,
  baseURL,
  page,
}) => {
  const line = await Line.of(page);
  const [a, b] = [new BoardPage(page), new BoardPage(await browser.newPage({ baseURL: baseURL ?? "" }))];
  await a.open("offline");
  await b.open("offline");
  await line.cut();
  await expect(page.getByText(LOST)).toBeVisible();
  await a.stretch([4, 4], [8, 4], "1k");
  await b.stretch([4, 8], [8, 8], "2k");
  await expect(a.words()).toHaveText(["R1resistor of 1 kΩ, between node a and node b"]);

  await page.reload();
  await expect(page.getByText(LOST)).toBeVisible();
  await expect(a.words()).toHaveText(["R1resistor of 1 kΩ, between node a and node b"]);

  line.mend();
  // Both were R1 while they could not know of each other; the later one takes the next free number.
  for (const board of [a, b]) {
    await expect(board.words()).toHaveText([
      "R1resistor of 1 kΩ, between node a and node b",
      "R2resistor of 2 kΩ, between node c and node d",
    ]);
  }
  await expect(page.getByText("Connected", { exact: true })).toBeVisible();
  await b.page.close();
});

test("a page that is loaded again while the server is out of reach is there, with what was drawn", async ({
  page,
  context,
}) => {
  const board = new BoardPage(page);
  const code = await board.start();
  await board.stretch([4, 4], [8, 4], "1k");
  await page.evaluate(() => navigator.serviceWorker.ready);
  await expect.poll(() => page.evaluate(async () => (await (await caches.open("addend-pages")).keys()).length)).toBe(1);
  await context.setOffline(true);
  await expect(page.getByText(LOST)).toBeVisible();
  await expect(async () => {
    await page.reload();
    await expect(page.getByText(LOST)).toBeVisible();
  }).toPass();
  await board.stretch([4, 8], [8, 8], "2k");
  await page.reload();
  await expect(board.words()).toHaveCount(2);
  // Sheets were fetched ahead.
  await expect((await board.sheetOf("Invite")).getByText(code, { exact: true })).toBeVisible();
  await board.closeSheet();
  await context.setOffline(false);
  await expect(page.getByText("Connected", { exact: true })).toBeVisible();
  await expect(board.words()).toHaveCount(2);
});
