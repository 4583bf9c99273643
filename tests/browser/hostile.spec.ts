import { expect, type Page, test } from "@playwright/test";
import * as Y from "yjs";
import { Somebody } from "./company";
import { saved } from "./saved";

const MARKUP = "<img src=x onerror=__ran=1>";

/** What must not happen on a page that shows what others wrote; gives what did. */
function watch(page: Page): () => Promise<readonly string[]> {
  const found: string[] = [];
  const { origin } = new URL(page.url());
  page.on("pageerror", (error) => found.push(`error: ${error.message}`));
  page.on("dialog", (dialog) => {
    found.push(`dialog: ${dialog.message()}`);
    void dialog.dismiss();
  });
  page.on("request", (request) => {
    if (!/^(data|blob):/.test(request.url()) && new URL(request.url()).origin !== origin) found.push(request.url());
  });
  return async () => {
    const hasRun = await page.evaluate(() => "__ran" in window);
    return hasRun ? [...found, "a script of somebody else's has run"] : found;
  };
}

test("markup, formulas and names that objects have, written by a client of anybody's making, are text like any other", async ({
  browser,
  baseURL,
}) => {
  const [ana, eve] = [await Somebody.in(browser, baseURL), await Somebody.in(browser, baseURL)];
  const room = await ana.start("Ana", { kind: "example", id: "three-sources" });
  const harm = watch(ana.page);
  await eve.join(room, MARKUP);
  await expect(ana.here).toContainText(MARKUP);

  const { doc, close } = await eve.rawDocument(room);
  const put = (map: string, id: string, fields: object) => doc.getMap(map).set(id, new Y.Map(Object.entries(fields)));
  const resistor = { kind: "resistor", value: "1k" };
  doc.transact(() => {
    put("parts", "__proto__", { ...resistor, name: "__proto__", from: "0,20", to: "4,20" });
    put("parts", "a", { ...resistor, name: "hasOwnProperty", from: "4,20", to: "4,26" });
    put("parts", "b", { kind: "voltage-source", name: "constructor", value: "5 V", from: "0,26", to: "0,20" });
    put("wires", "w", { points: "0,26 4,26" });
    put("parts", "c", { ...resistor, name: "RC", value: MARKUP, from: "8,20", to: "8,26" });
    put("parts", "d", { ...resistor, name: "RD", value: "9".repeat(100_000), from: "12,20", to: "12,26" });
    put("parts", "e", { ...resistor, name: "RE", from: "9007199254740993,0", to: "1e308,5" });
    put("nodeNames", "f", { at: "4,20", name: "toString" });
    put("wanted", "g", { kind: "current", name: "__proto__", part: "__proto__", direction: "forward" });
    put("groups", "h", { sources: "__proto__ b" });
    const formulas = [
      MARKUP,
      "$\\href{javascript:__ran=1}{x}$",
      "$\\includegraphics{https://evil.example/x.png}$",
      "$\\def\\a{\\a\\a}\\a$",
      `$${"{".repeat(200)}$`,
    ];
    for (const [i, text] of formulas.entries())
      put("ink", `n${i}`, { kind: "note", colour: "ink", spots: `0,${-2 * i}`, text });
    doc.getMap("page").set("title", MARKUP);
    doc.getMap("page").set("statement", "<script>__ran=1</script>");
  });

  // The source with a name that objects have is a card like the others, and the old answers stand.
  await expect(ana.card("constructor").getByTestId("value-constructor")).toContainText("= 0 A");
  await ana.expectValue("total", "Iy = 25 mA");
  await expect(ana.page.getByRole("heading", { name: MARKUP, level: 2 })).toBeVisible();
  await expect(ana.page.getByText("<script>__ran=1</script>")).toBeVisible();
  await expect(ana.notes).toHaveCount(5);
  await expect(ana.notes.locator("img, a")).toHaveCount(0);
  await ana.card("constructor").click();
  await ana.button("Voltages").click();
  await ana.button("Redrawn").click();
  await ana.button("Back to the board").click();

  const files = await ana.sheetOf("Files");
  const svg = await saved(files, "Save as SVG");
  expect(svg.name).toMatch(/^[\w-]+\.svg$/);
  const elements = await ana.page.evaluate((text) => {
    const parsed = new DOMParser().parseFromString(text, "image/svg+xml");
    return [...parsed.querySelectorAll("*")].map((element) => element.localName);
  }, svg.bytes.toString());
  expect(elements).toContain("svg");
  for (const name of ["script", "img", "a", "parsererror", "foreignObject"]) expect(elements).not.toContain(name);
  await ana.closeSheet();
  expect(await harm()).toEqual([]);

  const guest = await browser.newPage({ baseURL: baseURL ?? "" });
  await guest.goto("/");
  const harmAtDoor = watch(guest);
  await guest.goto(`/room/${room}`);
  await expect(guest.getByText(MARKUP)).toBeVisible();
  expect(await harmAtDoor()).toEqual([]);
  close();
  await guest.close();
  for (const each of [ana, eve]) await each.leave();
});

test("pages are shown in no other site's frame, and send no address along to other sites", async ({ page }) => {
  for (const address of ["/", "/room/demo", "/nowhere"]) {
    const headers = (await page.goto(address))?.headers() ?? {};
    expect(headers["content-security-policy"], address).toContain("frame-ancestors 'self'");
    expect(headers["referrer-policy"], address).toBe("same-origin");
    expect(headers["x-content-type-options"], address).toBe("nosniff");
  }
});
