import { readFileSync } from "node:fs";
import { type Browser, expect, type Locator, test } from "@playwright/test";
import { BoardPage } from "./boardPage";
import { Somebody } from "./company";
import { auditFocus, auditPage } from "./pageAudit";
import { ReplayPage } from "./replayPage";

// The example's own answers: V1 60 mA, I1 −20 mA, V2 −15 mA, together 25 mA (shared/examples/three-sources.json).

/**
 * A lesson: Ana (instructor) hides the answers; Ben tries a wrong value for I1 and mends it; Ana draws ink, reveals V1, and
 * adds a resistor.
 */
async function lesson(browser: Browser, baseURL: string | undefined) {
  const ana = await Somebody.in(browser, baseURL);
  const code = await ana.start("Ana", { kind: "example", id: "three-sources" });
  await (await ana.sheetOf("Class")).getByLabel("All hidden until revealed").click();
  await ana.closeSheet();
  const ben = await Somebody.in(browser, baseURL);
  await ben.join(code, "Ben");
  for (const text of ["20 mA", "-20 mA"]) {
    await ben.tryField("I1 alone").fill(text);
    await ben.tryField("I1 alone").press("Enter");
    await expect(ana.page.locator('div:has(> [data-card="I1"])').getByText(`Ben: ${text}`)).toBeVisible();
  }
  await ana.take("Pen");
  await ana.draw([
    [1, 8],
    [3, 9],
    [5, 8],
  ]);
  await ana.button("Reveal “V1 alone”").click();
  await expect(ben.card("V1").getByTestId("value-V1")).toHaveText("Iy′ = 60 mA");
  await ana.tool("Stretch");
  await ana.stretch([9, 9], [13, 9], "33k");
  await expect(ben.words()).toHaveCount(9);
  return { ana, ben, code };
}

// Several browsers at once take their time on two busy cores.
test.setTimeout(90_000);

test("a lesson is replayed: circuit, tries, chapters and answers as they were, and it goes on from its middle", async ({
  browser,
  baseURL,
}) => {
  const { ana, ben, code } = await lesson(browser, baseURL);
  const replay = new ReplayPage(ana.page);

  await test.step("from the room by its word", async () => {
    await ana.page.getByRole("link", { name: "Replay" }).click();
    await expect(replay.ruler).toBeVisible();
    await expect(replay.parts()).toHaveCount(0);
  });

  await test.step("to its end", async () => {
    await replay.page.keyboard.press("End");
    await expect(replay.parts()).toHaveCount(9);
    await expect(replay.value("V1")).toHaveText("Iy′ = 60 mA");
    await expect(replay.value("total")).toHaveText("Iy = 25 mA");
  });

  await test.step("by its chapters", async () => {
    await replay.beside("Chapters");
    await replay.chapter(/Ben: a wrong value for the addend of I1/).click();
    const card = ana.page.locator('div:has(> [data-card="I1"])');
    await expect(card.getByText("Ben: 20 mA")).toBeVisible();
    await replay.chapter(/Ben: the addend of I1 mended/).click();
    await expect(card.getByText("Ben: -20 mA")).toBeVisible();
  });

  await test.step("edit by edit", async () => {
    await replay.ruler.focus();
    await replay.page.keyboard.press("End");
    await replay.beside("Working");
    await expect(replay.parts()).toHaveCount(9);
    const last = await replay.at();
    await replay.button("Edit before").click();
    await replay.button("Edit before").click();
    await expect(replay.parts()).toHaveCount(8);
    expect(await replay.at()).toBeLessThan(last);
    await replay.button("Next edit").click();
    await expect(replay.parts()).toHaveCount(9);
  });

  await test.step("played from its beginning to its end", async () => {
    await replay.ruler.focus();
    await replay.page.keyboard.press("Home");
    await expect(replay.parts()).toHaveCount(0);
    await replay.page.getByRole("button", { name: /^16×/ }).click();
    await replay.button("Play").click();
    await expect(replay.button("Play")).toBeVisible({ timeout: 30_000 });
    await expect(replay.parts()).toHaveCount(9);
  });

  await test.step("and goes on from before the last resistor, in a room of its own", async () => {
    await replay.beside("Chapters");
    await replay.chapter(/The addend of V1 shown/).click();
    await replay.button("Go on from here").click();
    await replay.page.getByLabel("Your name, as the others see it").fill("Ana");
    await replay.button("Make the new room").click();
    await expect(ana.page.getByText("Connected", { exact: true })).toBeVisible();
    expect(new URL(ana.page.url()).pathname).not.toContain(code);
    await expect(ana.words()).toHaveCount(8);
    await ana.expectValue("total", "Iy = 25 mA");
    // The room that was replayed is as it was.
    await expect(ben.words()).toHaveCount(9);
  });
  await ana.leave();
  await ben.leave();
});

test("a learner replays what learners saw: an answer is hidden until the moment it was revealed", async ({
  browser,
  baseURL,
}) => {
  const { ana, ben, code } = await lesson(browser, baseURL);
  const replay = new ReplayPage(ben.page);
  await replay.open(code);
  await replay.beside("Chapters");
  await replay.chapter(/Ben: the addend of I1 mended/).click();
  await expect(replay.value("V1")).toHaveText("Iy′ = hidden until revealed");
  await expect(replay.value("total")).toHaveText("Iy = hidden until revealed");
  await replay.chapter(/The addend of V1 shown/).click();
  await expect(replay.value("V1")).toHaveText("Iy′ = 60 mA");
  await expect(replay.value("total")).toHaveText("Iy = hidden until revealed");
  // What is an instructor's to do is not offered.
  for (const word of ["Share", "Keep or delete", "Rename or remove"]) await expect(replay.button(word)).toHaveCount(0);
  await ana.leave();
  await ben.leave();
});

test("a moment is found by what was done, held beside another one, and opened again by its link", async ({
  browser,
  baseURL,
}) => {
  const { ana, ben, code } = await lesson(browser, baseURL);
  const replay = new ReplayPage(ana.page);
  await replay.open(code);

  await test.step("found", async () => {
    await replay.beside("Find");
    const find = replay.page.getByRole("region", { name: "Find in the session" });
    await find.getByRole("searchbox").fill("33k");
    await expect(find.getByRole("status")).toHaveText("Found once.");
    await find.getByRole("button", { name: /Ana places .*33k/ }).click();
    await find.getByRole("searchbox").fill("");
    await find.getByRole("combobox", { name: "By" }).selectOption("Ben");
    await find.getByRole("combobox", { name: "What" }).selectOption("tries");
    await expect(find.getByRole("listitem")).toHaveText([
      /Ben tries 20 mA for Iy, I1 alone\. One way there: take the opposite reference direction\. Not right yet\./,
      /Ben tries -20 mA for Iy, I1 alone\. Right\./,
    ]);
    // Those who instruct find it by the mistake, which nobody has been told.
    await find.getByRole("searchbox").fill("opposite reference direction");
    await expect(find.getByRole("status")).toHaveText("Found once.");
    await find.getByRole("searchbox").fill("no such words");
    await expect(find.getByRole("status")).toHaveText("Nothing found.");
  });

  await test.step("held beside another", async () => {
    await replay.button("Hold to compare").click();
    await replay.ruler.focus();
    await replay.page.keyboard.press("ArrowLeft");
    await expect(replay.page.getByText(/R6 is new: resistor of 33 kΩ/)).toBeVisible();
    expect(await auditPage(replay.page), "compare").toEqual([]);
    await replay.button("Let go").click();
  });

  await test.step("opened by its link", async () => {
    const at = await replay.at();
    await replay.open(code, `?at=${at}`);
    await expect(replay.ruler).toHaveAttribute("data-at", String(at));
    await expect(replay.parts()).toHaveCount(8);
  });
  await ana.leave();
  await ben.leave();
});

test("an instructor names chapters, adds and removes them, and learners see them so", async ({ browser, baseURL }) => {
  const { ana, ben, code } = await lesson(browser, baseURL);
  const replay = new ReplayPage(ana.page);
  await replay.open(code);
  await replay.page.keyboard.press("End");
  await replay.beside("Chapters");
  await replay.page.getByLabel("A chapter at the moment that is shown").fill("A resistor too many");
  await replay.button("Add").click();
  await expect(replay.chapter(/A resistor too many/)).toBeVisible();
  await replay.button("Rename or remove").click();
  await replay.page.getByLabel("New name of “A resistor too many”").fill("R6 comes in");
  await replay.button("Rename “A resistor too many”").click();
  await expect(replay.chapter(/R6 comes in/).first()).toBeVisible();
  await replay.button("Remove “The addend of V1 shown”").click();
  await replay.button("Remove it").click();
  await expect(replay.chapter(/The addend of V1 shown/)).toHaveCount(0);

  const learner = new ReplayPage(ben.page);
  await learner.open(code);
  await learner.beside("Chapters");
  await expect(learner.chapter(/R6 comes in/)).toBeVisible();
  await expect(learner.chapter(/The addend of V1 shown/)).toHaveCount(0);
  await ana.leave();
  await ben.leave();
});

test("a replay link shows what learners saw, to be looked at alone, until it is taken back", async ({
  browser,
  baseURL,
}) => {
  const { ana, ben, code } = await lesson(browser, baseURL);
  const replay = new ReplayPage(ana.page);
  await replay.open(code);
  await replay.button("Share").click();
  await replay.button("Make a link").click();
  const link = await replay.page.getByLabel("The new link. It is shown this once: copy it now.").inputValue();
  expect(new URL(link).hash).toMatch(/^#link=[\w-]{20,}$/);
  expect(await auditPage(replay.page), "share").toEqual([]);

  const guest = new ReplayPage(await (await browser.newContext()).newPage());
  await guest.page.goto(link);
  await expect(guest.ruler).toBeVisible();
  await guest.page.keyboard.press("End");
  await expect(guest.value("V1")).toHaveText("Iy′ = 60 mA");
  await expect(guest.value("total")).toHaveText("Iy = hidden until revealed");
  for (const word of ["Share", "Keep or delete", "Go on from here"]) await expect(guest.button(word)).toHaveCount(0);
  await expect(guest.page.getByRole("link", { name: "To the room" })).toHaveCount(0);

  await replay.page.getByRole("button", { name: /^Take back link/ }).click();
  await replay.button("Take it back").click();
  await expect(replay.page.getByText("taken back", { exact: true })).toBeVisible();
  await guest.page.reload();
  await expect(guest.page.getByRole("heading", { name: "This link does not open a session" })).toBeVisible();
  expect(await auditPage(guest.page), "a link that was taken back").toEqual([]);

  await guest.page.goto(`/room/${code}/replay#link=`);
  await expect(guest.page.getByText("It is incomplete: what has to stand behind “#link=”")).toBeVisible();
  await expect(guest.page.getByRole("heading", { name: "This link does not open a session" })).toBeVisible();
  expect(await auditPage(guest.page), "a link that was cut").toEqual([]);

  await guest.page.goto(`/room/${code}/replay`);
  await expect(
    guest.page.getByRole("heading", { name: `The session of room ${code} is for those who are in it` }),
  ).toBeVisible();
  await guest.page.context().close();
  await ana.leave();
  await ben.leave();
});

test("the room is kept as long as the instructor says, and deleted now when they say so", async ({ page }) => {
  const board = new BoardPage(page);
  const code = await board.start("Ana", { kind: "example", id: "three-sources" });
  const replay = new ReplayPage(page);
  await replay.open(code);
  await replay.button("Keep or delete").click();
  await expect(page.getByLabel("for good")).toBeChecked();
  await page.getByLabel("30 days beyond the last thing that happens in it").click();
  await expect(page.getByText("The room is deleted 30 days after the last thing that happens in it.")).toBeVisible();
  expect(await auditPage(page), "keep").toEqual([]);
  await page.reload();
  await replay.button("Keep or delete").click();
  await expect(page.getByLabel("30 days beyond the last thing that happens in it")).toBeChecked();
  await replay.button("Delete the room").click();
  await replay.button("Delete it for good").click();
  await expect(page.getByRole("heading", { name: "Start a room" })).toBeVisible();
  await page.goto(`/room/${code}/replay`);
  await expect(page.getByRole("heading", { name: `There is no room ${code}` })).toBeVisible();
});

for (const { what, viewport } of [
  { what: "on a desk", viewport: { width: 1440, height: 900 } },
  { what: "on a phone", viewport: { width: 390, height: 844 } },
]) {
  test.describe(what, () => {
    test.use({ viewport });

    test("the page of a replay has no fault that the audit knows, on light and on dark paper", async ({ page }) => {
      const board = new BoardPage(page);
      const code = await board.start("Ana", { kind: "example", id: "three-sources" });
      await board.expectValue("total", "Iy = 25 mA");
      const replay = new ReplayPage(page);
      await replay.open(code);
      await page.keyboard.press("End");
      await expect(replay.value("total")).toHaveText("Iy = 25 mA");
      expect(await auditPage(page), "working").toEqual([]);
      expect(await auditFocus(page, 25)).toEqual([]);
      expect(await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth)).toBe(0);
      for (const word of ["Chapters", "Find"] as const) {
        await replay.beside(word);
        expect(await auditPage(page), word).toEqual([]);
      }
      await page.evaluate(() => localStorage.setItem("addend.paper", '{"paper":"dark"}'));
      await page.reload();
      await expect(replay.ruler).toBeVisible();
      expect(await auditPage(page), "dark").toEqual([]);
      for (const word of ["Save", "Keys", "Share", "Keep or delete", "Go on from here"]) {
        await replay.button(word).click();
        await expect(page.getByRole("dialog")).toBeVisible();
        expect(await auditPage(page), word).toEqual([]);
        await page.keyboard.press("Escape");
      }
    });
  });
}

test("a session that was saved as a file is brought in again on the first page, and plays as it did", async ({
  page,
}) => {
  const board = new BoardPage(page);
  const code = await board.start("Ana", { kind: "example", id: "three-sources" });
  await board.stretch([9, 9], [13, 9], "33k");
  await expect(board.words()).toHaveCount(9);
  const replay = new ReplayPage(page);
  await replay.open(code);
  await replay.button("Save").click();
  const saving = page.waitForEvent("download");
  await replay.button("Save the session as a file").click();
  const file = await (await saving).path();

  await page.goto("/");
  await page.getByLabel("Your name, as the others see it").fill("Ana");
  await page.getByLabel("Bring in a saved session").setInputFiles(file);
  await expect(replay.ruler).toBeVisible();
  expect(new URL(page.url()).pathname).not.toContain(code);
  await page.keyboard.press("End");
  await expect(replay.parts()).toHaveCount(9);
  await expect(replay.value("total")).toHaveText("Iy = 25 mA");

  await page.goto("/");
  const half = readFileSync(file).subarray(0, 200);
  await page
    .getByLabel("Bring in a saved session")
    .setInputFiles({ name: "half.addend-session", mimeType: "application/octet-stream", buffer: half });
  await expect(page.getByRole("alert").filter({ hasText: "archive" })).toBeVisible();
});

test("the board of a moment is saved as a drawing", async ({ page }) => {
  const board = new BoardPage(page);
  const code = await board.start("Ana", { kind: "example", id: "three-sources" });
  await board.expectValue("total", "Iy = 25 mA");
  const replay = new ReplayPage(page);
  await replay.open(code);
  await page.keyboard.press("End");
  await expect(replay.parts()).toHaveCount(8);
  await replay.button("Save").click();
  for (const [word, ending] of [
    ["Save as SVG", "svg"],
    ["Save as PNG", "png"],
  ] as const) {
    const saving = page.waitForEvent("download");
    await replay.button(word).click();
    const saved = await saving;
    expect(saved.suggestedFilename()).toMatch(new RegExp(`\\.${ending}$`));
    const content = readFileSync(await saved.path());
    // An SVG has the names of the parts as text; a PNG begins with its signature (ISO/IEC 15948, 5.2).
    if (ending === "svg") expect(content.toString()).toContain("R1");
    else expect([...content.subarray(0, 8)]).toEqual([137, 80, 78, 71, 13, 10, 26, 10]);
  }
});

test("somebody who asks not to be kept by name is a learner by number in the whole replay", async ({
  browser,
  baseURL,
}) => {
  const ana = await Somebody.in(browser, baseURL);
  const code = await ana.start("Ana", { kind: "example", id: "three-sources" });
  const ben = await Somebody.in(browser, baseURL);
  await ben.join(code, "Ben");
  await ben.stretch([9, 9], [13, 9], "33k");
  await (await ben.sheetOf("Class")).getByLabel("replays call me by name").click();
  await expect(ben.page.getByLabel("replays call me by name")).not.toBeChecked();
  const replay = new ReplayPage(ana.page);
  await replay.open(code);
  const names = replay.page.getByRole("list", { name: "Who did something" }).getByRole("listitem");
  await expect(names).toHaveText([/Ana/, /learner 1/]);
  await expect(replay.page.getByText("Ben")).toHaveCount(0);
  await ana.leave();
  await ben.leave();
});

test("ink and pointers are shown as they were", async ({ browser, baseURL }) => {
  const ana = await Somebody.in(browser, baseURL);
  const code = await ana.start("Ana");
  await ana.stretch([4, 4], [8, 4], "1k");
  await ana.take("Pen");
  await ana.draw([
    [4, 8],
    [6, 9],
    [8, 8],
  ]);
  await expect(ana.inkWords).not.toBeEmpty();
  // By the second line the pointer has been seen on the board for a while.
  await ana.draw([
    [4, 9],
    [8, 10],
  ]);
  // Pointer tracks are stored when their participant leaves, at the latest.
  await ana.page.goto("/");
  const replay = new ReplayPage(ana.page);
  await expect(async () => {
    await replay.open(code);
    await replay.page.keyboard.press("End");
    await replay.page.keyboard.press("ArrowLeft");
    await expect(replay.page.locator('[data-cursor="Ana"] svg')).toBeVisible({ timeout: 1000 });
  }).toPass({ timeout: 20_000 });
  await replay.page.keyboard.press("End");
  const canvas = replay.page.locator("canvas").first();
  const brown = () => canvas.evaluate(countOf, [0x7a, 0x45, 0x22] as const);
  await expect.poll(brown).toBeGreaterThan(20);
  await replay.ruler.focus();
  await replay.page.keyboard.press("Home");
  await expect.poll(brown).toBe(0);
  await ana.leave();
});

/** Runs in the page: how many pixels of a canvas are of a colour. */
function countOf(canvas: HTMLCanvasElement | SVGElement, [r, g, b]: readonly [number, number, number]): number {
  const context = canvas instanceof HTMLCanvasElement ? canvas.getContext("2d") : null;
  if (!context) return 0;
  const { data } = context.getImageData(0, 0, context.canvas.width, context.canvas.height);
  let count = 0;
  for (let i = 0; i < data.length; i += 4) {
    const isNear = [r, g, b].every((value, k) => Math.abs(value - (data[i + k] ?? 0)) < 14);
    if (isNear && (data[i + 3] ?? 0) > 40) count++;
  }
  return count;
}

test("all of a replay goes by the keyboard", async ({ page }) => {
  const board = new BoardPage(page);
  const code = await board.start("Ana", { kind: "example", id: "three-sources" });
  await board.expectValue("total", "Iy = 25 mA");
  await board.button("R1").click();
  await page.getByLabel("Value", { exact: true }).fill("100");
  await page.getByLabel("Value", { exact: true }).press("Enter");
  await expect(board.words().filter({ hasText: "R1" })).toContainText("100 Ω");
  const replay = new ReplayPage(page);
  await replay.open(code);
  await page.keyboard.press("ArrowRight");
  await expect(replay.parts()).toHaveCount(8);
  const first = await replay.at();
  await page.keyboard.press("ArrowRight");
  expect(await replay.at()).toBeGreaterThan(first);
  await page.keyboard.press("ArrowLeft");
  expect(await replay.at()).toBe(first);
  await page.keyboard.press("End");
  const last = await replay.at();
  await page.keyboard.press("Home");
  expect(await replay.at()).toBe(0);
  await page.keyboard.press("Space");
  await expect(replay.button("Pause")).toBeVisible();
  await page.keyboard.press("Space");
  await expect(replay.button("Play")).toBeVisible();
  await page.keyboard.press("PageDown");
  expect(await replay.at()).toBeGreaterThan(0);
  expect(last).toBeGreaterThan(await replay.at());
});

test("the board goes to the view that everyone was called to, and stays where whoever looks has put it", async ({
  page,
}) => {
  const board = new BoardPage(page);
  const code = await board.start("Ana", { kind: "example", id: "three-sources" });
  const scaleOf = async (sheet: Locator) => Number((await sheet.getAttribute("data-view"))?.split(" ")[0]);
  for (let i = 0; i < 3; i++) await board.button("Larger").click();
  const scale = await scaleOf(board.sheet);
  await board.button("Call everyone here").click();
  await expect(page.getByText("Everyone is called to this view.")).toBeVisible();
  await page.goto("/");
  const replay = new ReplayPage(page);
  await replay.open(code);
  const sheet = page.getByRole("group", { name: "The board", exact: true });
  await page.keyboard.press("End");
  await expect.poll(() => scaleOf(sheet)).toBeCloseTo(scale, 3);
  await replay.button("Fit").click();
  await expect.poll(() => scaleOf(sheet)).toBeLessThan(scale);
});
