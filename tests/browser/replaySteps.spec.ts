import { type Browser, expect, test } from "@playwright/test";
import type { BoardPage } from "./boardPage";
import { Somebody } from "./company";
import { auditPage } from "./pageAudit";
import { ReplayPage } from "./replayPage";

// With V1 alone 60 mA flow through R3 of the example (shared/examples/three-sources.json).

test.setTimeout(90_000);

async function become(board: BoardPage, source: string, what: string): Promise<void> {
  await board.page
    .getByRole("group", { name: "Sources on the drawing" })
    .getByRole("button", { name: new RegExp(`^${source}:`) })
    .click();
  await board.page
    .getByRole("group", { name: `What ${source} becomes` })
    .getByRole("button", { name: what })
    .click();
}

/**
 * A lesson in which zeroing is asked: Ben makes an open of V2 where V1 is to act alone, reads all rungs, says why, and mends
 * it. Then he tries V1's addend with the wrong sign and asks for a rung; at the end Ana doubles V1.
 */
async function lesson(browser: Browser, baseURL: string | undefined) {
  const ana = await Somebody.in(browser, baseURL);
  const code = await ana.start("Ana", { kind: "example", id: "three-sources" });
  const sheet = await ana.sheetOf("Class");
  await sheet.getByLabel("All hidden until revealed").click();
  await sheet.getByLabel("Learners zero the sources of each addend’s circuit").click();
  await ana.closeSheet();
  const ben = await Somebody.in(browser, baseURL);
  await ben.join(code, "Ben");
  await ben.card("V1").click();
  await become(ben, "I1", "an open");
  await become(ben, "V2", "an open");
  const bar = ben.page.getByRole("region", { name: "Zeroing for V1 alone" });
  await bar.getByRole("button", { name: "Check" }).click();
  await bar.getByRole("button", { name: "Ask for help" }).click();
  const help = ben.page.getByRole("region", { name: "Help with the sources of V1 alone" });
  for (const count of [1, 2]) {
    await expect(help.getByRole("listitem")).toHaveCount(count);
    await help.getByRole("button", { name: "Ask for more help" }).click();
  }
  await help.getByLabel("In one line: why was it so?").fill("I took 0 V for nothing there");
  await help.getByRole("button", { name: "Give the reason" }).click();
  await expect(help).toContainText("The reason is kept for the instructor.");
  await become(ben, "V2", "a short");
  await bar.getByRole("button", { name: "Check" }).click();
  await expect(bar).toBeHidden();
  await ben.tryField("V1 alone").fill("-60 mA");
  await ben.tryField("V1 alone").press("Enter");
  const rungs = ben.page.getByRole("region", { name: "Help with V1 alone", exact: true });
  await rungs.getByRole("button", { name: "Ask for help" }).click();
  await expect(rungs.getByRole("listitem")).toHaveCount(1);
  await ana.tool("Select");
  await ana.words().filter({ hasText: "V1" }).getByRole("button").first().click();
  await ana.page.getByLabel("Value", { exact: true }).fill("30 V");
  await ana.page.getByLabel("Value", { exact: true }).press("Enter");
  await expect(ben.page.getByText("Tried before the circuit was changed.").first()).toBeVisible();
  return { ana, ben, code };
}

test("a replay draws what sources had been made of, and has rungs, reasons and outdated tries at their card", async ({
  browser,
  baseURL,
}) => {
  const { ana, ben, code } = await lesson(browser, baseURL);
  const replay = new ReplayPage(ben.page);
  const bar = replay.page.getByRole("region", { name: "Zeroing for V1 alone" });
  const sources = replay.page.getByRole("region", { name: "Sources of V1 alone", exact: true });
  const help = replay.page.getByRole("region", { name: "Help with the sources of V1 alone" });
  const card = replay.page.locator('div:has(> [data-card="V1"])');

  await test.step("before anything was checked all sources are kept", async () => {
    await replay.open(code);
    await replay.page.keyboard.press("End");
    await replay.find("Ben", /says what each source becomes for V1 alone: not right yet/);
    await replay.open(code, `?at=${(await replay.at()) - 1}`);
    await replay.page.locator('[data-card="V1"]').click();
    await expect(replay.page.getByText("Only V1 is to act. What does each source become?").first()).toBeVisible();
    await expect(bar).toHaveText("The sources are still to be zeroed.");
    await expect(sources.getByRole("radio", { name: "kept", checked: true })).toHaveCount(3);
  });

  await test.step("then as they were checked, to be looked at alone", async () => {
    await replay.find("Ben", /says what each source becomes for V1 alone: not right yet/);
    await expect(bar).toHaveText("Not right yet.");
    await expect(sources.getByRole("group", { name: "V2" }).getByRole("radio", { name: "an open" })).toBeChecked();
    await expect(sources.getByRole("radio", { disabled: false })).toHaveCount(0);
    await expect(sources).toContainText("Checked by you: Not right yet.");
    await expect(replay.page.getByRole("button", { name: "Check" })).toHaveCount(0);
    await expect(help).toHaveCount(0);
  });

  await test.step("with the rungs that had been given, which light what they name", async () => {
    await replay.find("Ben", /asks for help with the zeroing for V1 alone: .*V2/);
    await expect(help.getByRole("listitem")).toHaveCount(3);
    const canvases = replay.page.locator("[aria-label='The board'] canvas");
    const atRest = await canvases.count();
    await help.getByRole("listitem").last().focus();
    await expect.poll(() => canvases.count()).toBeGreaterThan(atRest);
    expect(await auditPage(replay.page), "zeroing in a replay").toEqual([]);
  });

  await test.step("until it is right, and its circuit is drawn", async () => {
    await replay.find("Ben", /says what each source becomes for V1 alone: right/);
    await expect(bar).toHaveCount(0);
    await expect(replay.page.getByText("Only V1 acts. I1 and V2 zeroed.").first()).toBeVisible();
    await expect(sources).toContainText("Checked by you: Right.");
  });

  await test.step("and a try has its rungs, and is out of date once the circuit is another", async () => {
    await replay.find("Ben", /tries -60 mA for Iy, V1 alone/);
    await expect(card).toContainText("You: -60 mANot right yet.");
    const rungs = replay.page.getByRole("region", { name: "Help with V1 alone", exact: true });
    await expect(rungs).toHaveCount(0);
    await replay.find("Ben", /asks for help with V1 alone/);
    await expect(rungs.getByRole("listitem")).toHaveCount(1);
    await replay.page.keyboard.press("End");
    await expect(card).toContainText("You: -60 mATried before the circuit was changed.");
    await expect(rungs.getByRole("listitem")).toHaveCount(1);
    await replay.find("Ben", /tries -60 mA for Iy, V1 alone/);
    await expect(card).toContainText("You: -60 mANot right yet.");
  });

  await test.step("held beside another moment as well", async () => {
    await replay.button("Hold to compare").click();
    await replay.page.keyboard.press("End");
    const held = replay.page.getByRole("region", { name: "The sum of the held moment" });
    await expect(held.locator('div:has(> [data-card="V1"])')).toContainText("Not right yet.");
    await expect(card.first()).toContainText("Tried before the circuit was changed.");
  });

  await test.step("an instructor reads the reason too", async () => {
    const other = new ReplayPage(ana.page);
    await other.open(code);
    await other.find("Ben", /says why the zeroing for V1 alone was not right/);
    await other.page.locator('[data-card="V1"]').click();
    const given = other.page.getByRole("region", { name: "Help with the sources of V1 alone" });
    await expect(given).toContainText("Ben’s reason: I took 0 V for nothing there");
  });
  await ana.leave();
  await ben.leave();
});
