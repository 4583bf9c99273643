import { type Browser, expect, test } from "@playwright/test";
import { Somebody } from "./company";
import { auditFocus, auditPage } from "./pageAudit";

/** Somebody before the panel of worked lines. */
class Reader extends Somebody {
  readonly panel = this.page.getByRole("region", { name: /^Working/ });
  /** The lines that everybody has, and those that the instructor alone sees. */
  readonly lines = this.panel
    .getByRole("list", { name: /^Lines of/ })
    .and(this.page.locator(":not([aria-label*='only you'])"));
  readonly preview = this.panel.getByRole("list", { name: /only you see these lines/ });
  readonly said = this.page.getByTestId("new-lines");

  static async at(browser: Browser, baseURL: string | undefined, options = {}) {
    const context = await browser.newContext({
      viewport: { width: 1440, height: 900 },
      ...options,
      baseURL: baseURL ?? "",
    });
    return new Reader(await context.newPage());
  }

  line(number: number) {
    return this.lines.locator(`[data-line="${number}"]`);
  }

  async openCard(key: string) {
    await this.page.locator(`[data-card="${key}"]`).click();
  }

  step(word: string) {
    return this.panel.getByRole("button", { name: word, exact: true });
  }

  async expectShown(count: number) {
    await expect(this.lines.locator("[data-line]")).toHaveCount(count);
  }
}

/** A room on an example with its instructor and two learners, who all look at one card. */
async function classOn(browser: Browser, baseURL: string | undefined, example: string, card: string) {
  const [ana, ben, cem] = await Promise.all([1, 2, 3].map(() => Reader.at(browser, baseURL)));
  if (!ana || !ben || !cem) throw new Error("three people are wanted");
  const code = await ana.start("Ana", { kind: "example", id: example });
  await Promise.all([ben.join(code, "Ben"), cem.join(code, "Cem")]);
  for (const each of [ana, ben, cem]) await each.openCard(card);
  return { code, ana, ben, cem, leave: () => Promise.all([ana, ben, cem].map((each) => each.leave())) };
}

test("lines come to everybody one by one, all at once and go again, as the instructor says", async ({
  browser,
  baseURL,
}) => {
  const { code, ana, ben, cem, leave } = await classOn(browser, baseURL, "three-sources", "V1");
  await expect(ana.preview.locator("[data-line]")).toHaveCount(5);
  await expect(ana.panel).toContainText("Only you see this");
  await expect(ben.panel).toContainText("No line is shown yet. Each line comes here when the instructor shows it.");
  await expect(ben.panel.locator("[data-line]")).toHaveCount(0);

  await ana.step("Next line").click();
  for (const each of [ana, ben, cem]) await each.expectShown(1);
  await expect(ben.line(1)).toContainText("Let V1 act alone: V2 becomes a short (0 V) and I1 becomes an open (0 A).");
  await expect(ben.said).toHaveText(/^Line 1: Let V1 act alone/);
  await expect(ben.step("Next line")).toHaveCount(0);

  await ana.step("Next line").click();
  await expect(cem.line(2).locator("math").first()).toBeAttached();
  await expect(cem.panel).toContainText("2 lines");
  await expect(cem.panel).not.toContainText("R4 and R5 join the same two nodes");
  await expect(ana.panel).toContainText("2 of 5 shown");

  const dan = await Reader.at(browser, baseURL);
  await dan.join(code, "Dan");
  await dan.openCard("V1");
  await dan.expectShown(2);
  await expect(dan.said).toBeEmpty();
  await dan.leave();

  await ana.step("Back one line").click();
  for (const each of [ana, ben, cem]) await each.expectShown(1);
  await ana.step("All lines").click();
  for (const each of [ana, ben, cem]) await each.expectShown(5);
  await expect(ana.step("Next line")).toBeDisabled();
  await ana.step("Hide lines").click();
  for (const each of [ben, cem]) await each.expectShown(0);
  await leave();
});

test("a line lights its parts on the board, by pointer, by keyboard and in the circuit redrawn", async ({
  browser,
  baseURL,
}) => {
  const { ana, ben, leave } = await classOn(browser, baseURL, "three-sources", "V1");
  await ana.step("All lines").click();
  await ben.expectShown(5);
  const lit = () => ben.page.evaluate(() => document.querySelectorAll("[aria-label='Drawing board'] canvas").length);
  const atRest = await lit();
  // The corner of the frame around R1, which has the accent of V1 while it is lit.
  const corner = [1.083, -0.667] as const;
  await ben.expectPaint(corner, "#0068a3", false);
  await ben.line(3).hover();
  await ben.expectPaint(corner, "#0068a3");
  await ben.page.mouse.move(5, 5);
  await ben.expectPaint(corner, "#0068a3", false);
  await expect.poll(lit).toBe(atRest);

  await ben.line(1).focus();
  await expect.poll(lit).toBe(atRest + 2);
  await ben.page.keyboard.press("ArrowDown");
  await expect(ben.line(2)).toBeFocused();
  await ben.page.keyboard.press("End");
  await expect(ben.line(5)).toBeFocused();
  await ben.page.keyboard.press("Home");
  await expect(ben.line(1)).toBeFocused();
  await ben.page.keyboard.press("Enter");
  const sheet = ben.page.getByRole("dialog", { name: "The circuit after line 1" });
  await expect(sheet).toContainText("from a to");
  await ben.page.keyboard.press("Escape");
  await expect(sheet).toBeHidden();

  await ben.button("Redrawn").click();
  const strokes = () => ben.page.getByRole("region", { name: "The circuit redrawn" }).locator("svg path").count();
  const plain = await strokes();
  await ben.line(3).hover();
  await expect.poll(strokes).toBeGreaterThan(plain);
  await ben.page.mouse.move(5, 5);
  await leave();
});

test("a line is pinned to the board for everybody where it covers nothing, and its author can undo that", async ({
  browser,
  baseURL,
}) => {
  const { ana, ben, cem, leave } = await classOn(browser, baseURL, "three-sources", "V1");
  await ana.step("All lines").click();
  await ben.line(5).hover();
  await ben.button("Pin to board: line 5").click();
  await expect(ben.line(5)).toContainText("Line 5 is on the board");
  for (const each of [ana, ben, cem]) await expect(each.notes).toHaveCount(1);
  await expect(cem.notes.first().locator("math").first()).toBeAttached();
  await ben.line(4).hover();
  await ben.button("Pin to board: line 4").click();
  await expect(cem.notes).toHaveCount(2);
  const boxes = await Promise.all([0, 1].map((i) => cem.notes.nth(i).boundingBox()));
  const [first, second] = boxes;
  if (!first || !second) throw new Error("a note is not there");
  const isApart =
    first.x + first.width <= second.x ||
    second.x + second.width <= first.x ||
    first.y + first.height <= second.y ||
    second.y + second.height <= first.y;
  expect(isApart).toBe(true);
  await ben.button("Undo").click();
  await ben.button("Undo").click();
  for (const each of [ana, ben, cem]) await expect(each.notes).toHaveCount(0);

  await ana.button("Class").click();
  await ana.page.getByLabel("Only me").click();
  await ana.page.keyboard.press("Escape");
  await cem.line(5).hover();
  await expect(cem.button("Copy line 5")).toBeVisible();
  await expect(cem.button("Pin to board: line 5")).toHaveCount(0);
  await leave();
});

test("a line or the whole working is copied as LaTeX, plain text or MathML, by hand where the browser refuses", async ({
  browser,
  baseURL,
}) => {
  const ana = await Reader.at(browser, baseURL, { permissions: ["clipboard-read", "clipboard-write"] });
  await ana.start("Ana", { kind: "example", id: "three-sources" });
  await ana.openCard("V1");
  await ana.step("All lines").click();
  await ana.expectShown(5);
  const copied = () => ana.page.evaluate(() => navigator.clipboard.readText());
  const copy = async (what: string, word: string) => {
    await ana.button(`Copy ${what}`).click();
    await ana.button(`Copy ${what} as ${word}`).click();
    await expect(ana.panel.getByText(`Copied as ${word}`)).toBeVisible();
    return copied();
  };
  await ana.line(3).hover();
  expect(await copy("line 3", "LaTeX")).toMatch(/^R_\{12\} \{\}= \\frac\{R_\{1\} \\cdot R_\{2\}\}/);
  await ana.line(3).hover();
  expect(await copy("line 3", "MathML")).toMatch(/^<math .*<mfrac>.*<\/math>$/);
  const text = await copy("all lines", "Plain text");
  expect(text.split("\n")[0]).toBe("1. Let V1 act alone: V2 becomes a short (0 V) and I1 becomes an open (0 A).");
  expect(text).toContain("5. ");

  await ana.page.evaluate(() => {
    navigator.clipboard.writeText = () => Promise.reject(new Error("refused"));
    document.execCommand = () => false;
  });
  await ana.button("Copy all lines").click();
  await ana.button("Copy all lines as LaTeX").click();
  await expect(ana.panel.getByText("This browser does not let the page copy. The text is here:")).toBeVisible();
  await expect(ana.page.getByLabel("The text to copy by hand")).toHaveValue(/^\\begin\{enumerate\}/);
  await ana.leave();
});

test("symbols or numbers come first as this browser likes it, also after a reload", async ({ browser, baseURL }) => {
  const ana = await Reader.at(browser, baseURL);
  const code = await ana.start("Ana", { kind: "example", id: "three-sources" });
  await ana.openCard("V1");
  await ana.step("All lines").click();
  await expect(ana.line(3).locator("math")).toHaveCount(1);
  await ana.step("Numbers first").click();
  await expect(ana.line(3).locator("math")).toHaveCount(2);
  await ana.enter(code);
  await ana.openCard("V1");
  await expect(ana.step("Numbers first")).toHaveAttribute("aria-pressed", "true");
  await expect(ana.line(3)).toContainText("by");
  await ana.leave();
});

test("the total has its other ways, which agree, and the power table, which balances", async ({ browser, baseURL }) => {
  const { ana, ben, leave } = await classOn(browser, baseURL, "three-sources", "total");
  await expect(ben.panel).not.toContainText("Nodal analysis");
  await expect(ana.panel).toContainText("Others see this once all lines of the total are shown.");
  await ana.step("Next line").click();
  for (const title of ["Nodal analysis", "Mesh analysis", "Thévenin equivalent"]) {
    await expect(ben.panel.getByText(`${title} agrees with the sum: 25 mA`)).toBeVisible();
  }
  await ben.panel.getByText("Nodal analysis").click();
  await expect(ben.panel.getByRole("list", { name: "Lines of the nodal analysis" }).locator("[data-line]")).toHaveCount(
    5,
  );
  await ben.panel.getByText("Every part").click();
  await expect(ben.panel.getByRole("row", { name: /^R3/ })).toContainText("absorbs 87.5 mW");
  await expect(ben.panel.getByRole("row", { name: /^All/ })).toContainText("= 0 W");
  await ben.panel.getByText("Powers of the addends").click();
  await expect(ben.panel).toContainText("R1 would absorb 583.2 mW with V1 alone");

  await ana.button("Hide “I1 alone”").click();
  await expect(ben.panel).not.toContainText("Nodal analysis");
  await expect(ana.panel).toContainText("Reveal first: I1 alone");
  await leave();
});

test("a new line comes into sight where its reader is at the end, and takes nobody away from another line", async ({
  browser,
  baseURL,
}) => {
  const { ana, ben, cem, leave } = await classOn(browser, baseURL, "three-sources", "V1");
  for (let count = 1; count <= 4; count += 1) {
    await ana.step("Next line").click();
    await ben.expectShown(count);
    await expect(ben.line(count)).toBeInViewport({ ratio: 0.5 });
  }
  await cem.expectShown(4);
  await cem.line(1).focus();
  const before = await cem.line(1).boundingBox();
  await ana.step("Next line").focus();
  await ana.page.keyboard.press("l");
  await ben.expectShown(5);
  await expect(cem.button("New: line 5")).toBeVisible();
  expect(await cem.line(1).boundingBox()).toEqual(before);
  await cem.button("New: line 5").click();
  await expect(cem.line(5)).toBeInViewport();
  await expect(cem.button("New: line 5")).toHaveCount(0);
  await leave();
});

test("on a phone wide mathematics scrolls in its own line, and touching a line lights it", async ({
  browser,
  baseURL,
}) => {
  const ana = await Reader.at(browser, baseURL);
  const code = await ana.start("Ana", { kind: "example", id: "three-sources" });
  await ana.openCard("total");
  await ana.step("All lines").click();
  const phone = await Reader.at(browser, baseURL, {
    viewport: { width: 390, height: 844 },
    hasTouch: true,
    isMobile: true,
  });
  await phone.join(code, "Ben");
  await phone.openCard("total");
  await phone.panel.getByText("Mesh analysis").tap();
  const matrix = phone.panel.getByRole("list", { name: "Lines of the mesh analysis" }).locator('[data-role="matrix"]');
  await expect(matrix).toHaveAttribute("tabindex", "0");
  expect(await matrix.evaluate((row) => row.scrollWidth > row.clientWidth)).toBe(true);
  expect(await phone.overflow()).toBeLessThanOrEqual(0);
  await phone.line(1).first().tap();
  await expect(phone.line(1).first()).toHaveAttribute("data-active", "true");
  await expect(phone.button("Copy line 1")).toBeVisible();
  expect(await auditPage(phone.page)).toEqual([]);
  await phone.leave();
  await ana.leave();
});

test("the panel is sound for everybody's eyes, hands and screen readers", async ({ browser, baseURL }) => {
  const { ana, ben, leave } = await classOn(browser, baseURL, "door-loop-bridge", "V1");
  expect(await auditPage(ana.page)).toEqual([]);
  await ana.step("Next line").click();
  await ben.line(1).focus();
  expect(await auditPage(ana.page)).toEqual([]);
  expect(await auditPage(ben.page)).toEqual([]);
  expect(await auditFocus(ben.page, 60)).toEqual([]);
  await leave();
});

test("the small circuit of a line that is not shown yet opens larger when it is pressed", async ({
  browser,
  baseURL,
}) => {
  const ana = await Reader.at(browser, baseURL);
  await ana.start("Ana", { kind: "example", id: "three-sources" });
  await ana.openCard("V1");
  const sketch = ana.preview.getByRole("button", { name: "The circuit after line 1, larger" });
  await sketch.click();
  await expect(ana.page.getByRole("dialog", { name: "The circuit after line 1" })).toBeVisible();
  await ana.leave();
});
