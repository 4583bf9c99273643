import { type Browser, expect, test } from "@playwright/test";
import { HIGHLIGHTER_OPACITY, INK_SHADES } from "../../src/ink/inkColours";
import { Somebody } from "./company";
import { pixelsOf, saved } from "./saved";

const FORMULA = "so $\\sqrt{\\frac{V_1}{R_1}}$ at most";

/** A room with highlighter, an arrow and a note on every card, a pen line on V1's and another on I1's, with V1's open. */
async function inkedRoom(browser: Browser, baseURL: string | undefined): Promise<Somebody> {
  const ana = await Somebody.in(browser, baseURL);
  await ana.start("Ana", { kind: "example", id: "three-sources" });
  await ana.take("Highlighter");
  await ana.draw([
    [0, -3],
    [4, -3],
  ]);
  await ana.take("Arrow");
  await ana.draw([
    [12, -3],
    [8, -3],
  ]);
  await ana.write([2, 6], FORMULA);
  await ana.card("I1").click();
  await ana.take("Pen");
  await ana.button("violet").click();
  await ana.draw([
    [8, 7],
    [12, 7],
  ]);
  await ana.card("V1").click();
  await ana.button("moss").click();
  await ana.draw([
    [14, 7],
    [18, 7],
  ]);
  await expect(ana.inkWords).toHaveText("Ink: 1 highlighted place in brown, 1 arrow in brown, 1 pen line in moss.");
  await ana.button("Select").click();
  return ana;
}

test("the saved SVG has the ink of the card that is shown, legible without fonts or the network", async ({
  browser,
  baseURL,
}) => {
  const ana = await inkedRoom(browser, baseURL);
  const text = (await saved(await ana.sheetOf("Files"), "Save as SVG")).bytes.toString("utf8");
  expect(text.match(/https?:[^"'\s)]*/g)).toEqual(["http://www.w3.org/2000/svg"]);

  const alone = await browser.newPage({ offline: true, javaScriptEnabled: false });
  await alone.setContent(text);
  const lines = alone.locator("path[data-mark]");
  const look = (line: number) =>
    lines.nth(line).evaluate((path) => ["stroke", "stroke-opacity", "d"].map((name) => path.getAttribute(name)));
  await expect(lines).toHaveCount(3);
  expect(await look(0)).toEqual([INK_SHADES.brown.light, String(HIGHLIGHTER_OPACITY), expect.any(String)]);
  // Shaft, and a head of two barbs that meet at the tip.
  expect(await look(1)).toEqual([
    INK_SHADES.brown.light,
    null,
    expect.stringMatching(/^M[^ML]*L[^ML]*M[^ML]*L[^ML]*L[^ML]*$/),
  ]);
  expect((await look(2))[0]).toBe(INK_SHADES.moss.light);
  expect(text).not.toContain(INK_SHADES.violet.light);
  // The highlighter lies beneath the circuit, all else above it.
  const order = ["stroke-opacity=", ">R1<", "<title>so "].map((each) => text.indexOf(each));
  expect(order).toEqual([...order].sort((a, b) => a - b));
  expect(Math.min(...order)).toBeGreaterThan(0);

  // Words are letters, a formula is outlines: V, 1, R and 1, the bar of the fraction, and the sign of the root.
  const note = alone.locator("g[data-mark]");
  await expect(note.locator("title")).toHaveText(FORMULA);
  await expect(note.locator("text")).toHaveText(["so", "at most"]);
  await expect(note.locator("path[transform^=translate]")).toHaveCount(4);
  await expect(note.locator("path[stroke]")).toHaveCount(1);
  await expect(note.locator("svg path")).toHaveCount(1);
  // All of it lies on the sheet, and the formula between its words.
  const boxes = await note
    .locator("text, path[transform^=translate]")
    .evaluateAll((all) =>
      all
        .map((each) => each.getBoundingClientRect())
        .map(({ left, right, top, bottom }) => ({ left, right, top, bottom })),
    );
  const sheet = await alone
    .locator("svg")
    .first()
    .evaluate((svg) => svg.getBoundingClientRect().toJSON());
  for (const box of boxes) {
    expect(
      box.left >= sheet.left && box.right <= sheet.right && box.top >= sheet.top && box.bottom <= sheet.bottom,
    ).toBe(true);
  }
  const [so, atMost, ...letters] = [boxes[0], boxes.at(-1), ...boxes.slice(1, -1)];
  for (const letter of letters) {
    expect(letter?.left).toBeGreaterThan(so?.right ?? 0);
    expect(letter?.right).toBeLessThan(atMost?.left ?? 0);
  }
  await alone.close();
  await ana.leave();
});

test("the saved PNG has it too, the highlighter see-through; without annotations neither file has any", async ({
  browser,
  baseURL,
}) => {
  const ana = await inkedRoom(browser, baseURL);
  const sheet = await ana.sheetOf("Files");
  const svg = (await saved(sheet, "Save as SVG")).bytes.toString("utf8");
  const png = (await saved(sheet, "Save as PNG")).bytes;
  const [, left = "", top = ""] = /viewBox="([-.\d]+) ([-.\d]+) /.exec(svg) ?? [];
  // Three pixels of the PNG for each of the drawing's, 24 of those for a grid step.
  const at = (x: number, y: number) => ({ x: (24 * x - Number(left)) * 3, y: (24 * y - Number(top)) * 3 });
  const places = [at(2, -3), at(10, -3), at(16, 7), at(10, 7)];
  const rgb = (colour: string) => [1, 3, 5].map((i) => Number.parseInt(colour.slice(i, i + 2), 16));
  const [highlighted, arrow, pen, ofAnother] = await pixelsOf(ana.page, png, places);
  // 28 % of brown on white.
  const through = rgb(INK_SHADES.brown.light).map((value) => 255 + (value - 255) * HIGHLIGHTER_OPACITY);
  for (const [i, value] of through.entries()) expect(Math.abs((highlighted?.[i] ?? 0) - value)).toBeLessThan(2);
  expect(arrow).toEqual(rgb(INK_SHADES.brown.light));
  expect(pen).toEqual(rgb(INK_SHADES.moss.light));
  expect(ofAnother).toEqual([255, 255, 255]);
  // The bar of the fraction is as wide as the formula is, and stands where the SVG has it.
  const [, x1 = "", y1 = "", x2 = ""] = /<path d="M([-.\d]+) ([-.\d]+)L([-.\d]+) [-.\d]+" stroke="rgb/.exec(svg) ?? [];
  const middle = { x: ((Number(x1) + Number(x2)) / 2 - Number(left)) * 3, y: (Number(y1) - Number(top)) * 3 };
  const [bar] = await pixelsOf(ana.page, png, [middle]);
  expect(bar?.[0] ?? 255).toBeLessThan(200);

  await sheet.getByLabel("Without").check();
  const plain = (await saved(sheet, "Save as SVG")).bytes.toString("utf8");
  expect(plain).not.toContain("data-mark");
  const [, plainLeft = "", plainTop = ""] = /viewBox="([-.\d]+) ([-.\d]+) /.exec(plain) ?? [];
  const plainPng = (await saved(sheet, "Save as PNG")).bytes;
  // The sheet is that of the circuit alone: what lay above it is not there.
  expect(Number(plainTop)).toBeGreaterThan(Number(top));
  const above = { x: (48 - Number(plainLeft)) * 3, y: 3 };
  expect(await pixelsOf(ana.page, plainPng, [above])).toEqual([[255, 255, 255]]);
  await ana.leave();
});

test("what is printed has the ink of the card that is shown, or none where that is chosen", async ({
  browser,
  baseURL,
}) => {
  const ana = await inkedRoom(browser, baseURL);
  const printed = ana.page.locator("svg:has(> path[data-mark])");
  await expect(printed).toHaveCount(0);
  await ana.page.emulateMedia({ media: "print" });
  await expect(printed).toBeVisible();
  await expect(printed.locator("> path[data-mark]")).toHaveCount(3);
  await expect(printed.locator("g[data-mark] text")).toContainText(["so", "R", "1", "V", "1", "at most"]);
  await expect(ana.page.getByRole("navigation", { name: "Tools" })).toBeHidden();
  await ana.page.emulateMedia({ media: "screen" });
  const sheet = await ana.sheetOf("Files");
  await sheet.getByLabel("Without").check();
  await ana.closeSheet();
  await ana.page.emulateMedia({ media: "print" });
  await expect(ana.page.locator("svg").filter({ hasText: "I1 zeroed" })).toBeVisible();
  await expect(printed).toHaveCount(0);
  await ana.leave();
});
