import { gzipSync } from "node:zlib";
import { expect, type Page, test } from "@playwright/test";
import { BoardPage } from "./boardPage";

/** In bytes, compressed by gzip, for all scripts that a first visit fetches until the page has come to rest. */
const ROOM_LIMIT = 450_000;

/** Scripts that the page has fetched, by their address, with their size when compressed. */
async function scriptsOf(page: Page, visit: () => Promise<unknown>): Promise<ReadonlyMap<string, number>> {
  const bodies: Promise<readonly [string, number]>[] = [];
  page.on("response", (response) => {
    if (response.request().resourceType() !== "script") return;
    bodies.push(response.body().then((body) => [response.url(), gzipSync(body).length] as const));
  });
  await visit();
  await page.waitForLoadState("networkidle");
  return new Map(await Promise.all(bodies));
}

const total = (sizes: ReadonlyMap<string, number>) => [...sizes.values()].reduce((sum, size) => sum + size, 0);

test("the first load of a room's page has at most 450 kB of compressed script", async ({ page, browser, baseURL }) => {
  const maker = new BoardPage(page);
  const code = await maker.start("Ana", { kind: "example", id: "three-sources" });
  const context = await browser.newContext({ baseURL: baseURL ?? "" });
  await context.request.post(`/api/rooms/${code}/join`, { data: { name: "Ben" }, headers: { origin: baseURL ?? "" } });
  const guest = await context.newPage();
  const sizes = await scriptsOf(guest, () => new BoardPage(guest).enter(code));
  test.info().annotations.push({ type: "script", description: `${Math.round(total(sizes) / 1000)} kB compressed` });
  expect(sizes.size).toBeGreaterThan(3);
  expect(total(sizes), [...sizes].map(([url, size]) => `${size} ${url}`).join("\n")).toBeLessThanOrEqual(ROOM_LIMIT);
  await context.close();
});

test("scripts are sent compressed", async ({ page }) => {
  const encodings: (string | undefined)[] = [];
  page.on("response", (response) => {
    if (response.request().resourceType() === "script") encodings.push(response.headers()["content-encoding"]);
  });
  await page.goto("/");
  expect(encodings.length).toBeGreaterThan(0);
  expect([...new Set(encodings)]).toEqual(["gzip"]);
});
