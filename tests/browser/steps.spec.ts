import { expect, type Locator } from "@playwright/test";
import { BoardPage } from "./boardPage";
import { type Classroom, test as classroomTest } from "./classroom";
import { auditPage } from "./pageAudit";

// The example's own sources: V1 (15 V) and V2 (9 V) are voltage sources, I1 (200 mA) is a current source. With V1 alone
// 60 mA flow through R3, of which R4 (30 Ω) takes 40 mA and R5 (60 Ω) 20 mA (shared/examples/three-sources.json).

/** Side of a source's symbol with the room around it, in pixels of a drawing that is shown at its own size. */
const SYMBOL = 46;

/** A classroom in which zeroing is asked. */
const test = classroomTest.extend<{ asking: Classroom }>({
  asking: async ({ classroom }, provide) => {
    const { ana } = classroom;
    const sheet = await ana.sheetOf("Class");
    await sheet.getByLabel("All hidden until revealed").click();
    await sheet.getByLabel("Learners zero the sources of each addend’s circuit").click();
    await ana.closeSheet();
    await provide(classroom);
  },
});
test.setTimeout(90_000);

/** A source on the drawing, by its name and what it has become. */
const source = (board: BoardPage, name: string, becomes: string): Locator =>
  board.page
    .getByRole("group", { name: "Sources on the drawing" })
    .getByRole("button", { name: `${name}: ${becomes}` });

const choice = (board: BoardPage, name: string, becomes: string): Locator =>
  board.page.getByRole("group", { name: `What ${name} becomes` }).getByRole("button", { name: becomes });

const bar = (board: BoardPage, title: string): Locator =>
  board.page.getByRole("region", { name: `Zeroing for ${title}` });

const rows = (board: BoardPage, title: string): Locator =>
  board.page.getByRole("region", { name: `Sources of ${title}`, exact: true });

const ownLines = (board: BoardPage, title: string): Locator =>
  board.page.getByRole("region", { name: `Lines of your own for ${title}` });

async function writeLine(board: BoardPage, title: string, text: string): Promise<void> {
  await ownLines(board, title).getByLabel("A line of your own").fill(text);
  await ownLines(board, title).getByLabel("A line of your own").press("Enter");
}

test("a learner zeroes the sources on the drawing, is helped with a wrong one, and the circuit is drawn for all", async ({
  asking: { ana, join },
}) => {
  const ben = await join("Ben");
  await ben.card("V1").click();
  await expect(ben.page.getByText("Only V1 is to act. What does each source become?").first()).toBeVisible();
  await source(ben, "I1", "kept").click();
  await choice(ben, "I1", "an open").click();
  await source(ben, "V2", "kept").click();
  await choice(ben, "V2", "an open").click();
  await expect(source(ben, "V2", "an open")).toBeFocused();
  await bar(ben, "V1 alone").getByRole("button", { name: "Check" }).click();
  await expect(bar(ben, "V1 alone")).toContainText("Not right yet.");

  await bar(ben, "V1 alone").getByRole("button", { name: "Ask for help" }).click();
  const help = ben.page.getByRole("region", { name: "Help with the sources of V1 alone" });
  await expect(help.getByRole("listitem")).toBeFocused();
  await help.getByRole("button", { name: "Ask for more help" }).click();
  await help.getByRole("button", { name: "Ask for more help" }).click();
  await expect(help.getByRole("listitem")).toHaveCount(3);
  await expect(help.getByRole("listitem").last()).toContainText("V2");
  await help.getByLabel("In one line: why was it so?").fill("I took 0 V for nothing there");
  await help.getByRole("button", { name: "Give the reason" }).click();

  // Everybody goes on from what was checked last.
  await ana.card("V1").click();
  await expect(source(ana, "V2", "an open")).toBeVisible();
  await expect(rows(ana, "V1 alone")).toContainText("by Ben: Not right yet.");
  await expect(rows(ana, "V1 alone")).toContainText("Ben’s reason: I took 0 V for nothing there");

  await source(ben, "V2", "an open").click();
  await choice(ben, "V2", "a short").click();
  await bar(ben, "V1 alone").getByRole("button", { name: "Check" }).click();
  for (const board of [ben, ana]) {
    await expect(board.page.getByText("Only V1 acts. I1 and V2 zeroed.").first()).toBeVisible();
    await expect(bar(board, "V1 alone")).toBeHidden();
  }
  await ben.page.reload();
  await ben.card("V1").click();
  await expect(ben.page.getByText("Only V1 acts. I1 and V2 zeroed.").first()).toBeVisible();
  await expect(rows(ben, "V1 alone")).toContainText("Checked by you: Right.");
  // The other addends are still asked.
  await ben.card("I1").click();
  await expect(bar(ben, "I1 alone")).toBeVisible();
});

test("all of it can be done by the keyboard, on the drawing and in the list", async ({ asking: { join } }) => {
  const ben = await join("Ben");
  const { keyboard } = ben.page;
  await ben.card("V1").focus();
  await keyboard.press("Enter");
  await source(ben, "I1", "kept").focus();
  await keyboard.press("Enter");
  await expect(choice(ben, "I1", "kept")).toBeFocused();
  await keyboard.press("Escape");
  await expect(source(ben, "I1", "kept")).toBeFocused();
  await keyboard.press("Enter");
  await keyboard.press("ArrowRight");
  await keyboard.press("ArrowRight");
  await keyboard.press("Enter");
  await expect(source(ben, "I1", "an open")).toBeFocused();

  const list = rows(ben, "V1 alone");
  await list.getByRole("group", { name: "V2" }).getByRole("radio", { name: "kept" }).focus();
  await keyboard.press("ArrowDown");
  await expect(list.getByRole("group", { name: "V2" }).getByRole("radio", { name: "a short" })).toBeChecked();
  await expect(list.getByRole("group", { name: "I1" }).getByRole("radio", { name: "an open" })).toBeChecked();
  await list.getByRole("button", { name: "Check the sources" }).focus();
  await keyboard.press("Enter");
  await expect(list).toContainText("Checked by you: Right.");
});

test("lines of one's own are told true, false, or true and saying nothing, to everybody", async ({
  asking: { ana, join },
}) => {
  const ben = await join("Ben");
  await ben.card("V1").click();
  await ana.card("V1").click();
  for (const text of ["Iy = I_R4 + I_R5", "Iy = I_R4 - I_R5", "Iy - Iy = 0"]) {
    await writeLine(ben, "V1 alone", text);
    await expect(ownLines(ben, "V1 alone").getByLabel("A line of your own")).toHaveValue("");
  }
  for (const board of [ben, ana]) {
    const items = ownLines(board, "V1 alone").locator("ol > li");
    await expect(items).toHaveCount(3);
    await expect(items.nth(0)).toContainText("True of this circuit.");
    await expect(items.nth(0).locator('[data-mark="right"]')).toBeVisible();
    await expect(items.nth(1).locator('[data-mark="wrong"]').first()).toBeVisible();
    await expect(items.nth(2).locator('[data-mark="empty"]')).toBeVisible();
    await expect(items.nth(0).locator("math").first()).toBeAttached();
  }
  await expect(ownLines(ana, "V1 alone").locator("ol > li").nth(1)).toContainText("Ben:");

  const help = ben.page.getByRole("region", { name: "Help with line 2" });
  for (const count of [1, 2, 3]) {
    await help.getByRole("button", { name: /Ask for/ }).click();
    await expect(help.getByRole("listitem")).toHaveCount(count);
  }
  await expect(help.getByRole("listitem").last()).toContainText("with the other sign before I_R5");

  // What can't be read stays in the field, and is nobody else's.
  await writeLine(ben, "V1 alone", "Iy = 2 * nonsense");
  await expect(ownLines(ben, "V1 alone")).toContainText('There is no part "nonsense"');
  await expect(ownLines(ben, "V1 alone").getByLabel("A line of your own")).toHaveValue("Iy = 2 * nonsense");
  await expect(ownLines(ana, "V1 alone").locator("ol > li")).toHaveCount(3);
});

test("a phone zeroes by touch, beneath a call as well, and writes a line", async ({ asking: { ana, join } }) => {
  const ben = await join("Ben", 390, 844);
  await ben.card("V1").tap();
  // What is pressed is as large as a finger wants it; the frame that is seen keeps to the symbol, clear of the labels.
  const pressed = await source(ben, "I1", "kept").boundingBox();
  const frame = await source(ben, "I1", "kept").evaluate((button) => getComputedStyle(button, "::before").left);
  const scale = Number((await ben.sheet.getAttribute("data-view"))?.split(" ")[0]);
  expect(scale).toBeLessThan(36 / SYMBOL);
  expect(pressed?.width).toBeGreaterThanOrEqual(36);
  expect(Number.parseFloat(frame)).toBeCloseTo((36 - SYMBOL * scale) / 2 - 1, 0);
  await source(ben, "I1", "kept").tap();
  await choice(ben, "I1", "an open").tap();
  await source(ben, "V2", "kept").tap();
  const box = await choice(ben, "V2", "a short").boundingBox();
  expect(box && box.x >= 0 && box.x + box.width <= 390).toBe(true);
  await choice(ben, "V2", "a short").tap();
  await ana.card("V1").click();
  await ana.button("Call everyone here").click();
  await expect(ben.button("Stay here")).toBeVisible();
  await ben.button("Ink").tap();
  await ben.button("Highlighter").tap();
  await ben.tool("Stretch");
  expect(await auditPage(ben.page)).toEqual([]);
  await bar(ben, "V1 alone").getByRole("button", { name: "Check" }).tap();
  await expect(ben.page.getByText("Only V1 acts. I1 and V2 zeroed.").first()).toBeVisible();
  await writeLine(ben, "V1 alone", "Iy = I_R4 + I_R5");
  await expect(ownLines(ben, "V1 alone")).toContainText("True of this circuit.");
  expect(await ben.overflow()).toBeLessThanOrEqual(0);
});

test("those who only look see what was checked, and nothing to press", async ({ asking: { ana, code }, newPage }) => {
  await ana.card("V1").click();
  await source(ana, "V2", "kept").click();
  await choice(ana, "V2", "a short").click();
  await bar(ana, "V1 alone").getByRole("button", { name: "Check" }).click();
  await expect(bar(ana, "V1 alone")).toContainText("Not right yet.");
  expect(await auditPage(ana.page)).toEqual([]);
  const olga = new BoardPage(await newPage());
  await olga.observe(code, "Olga");
  await olga.card("V1").click();
  await expect(rows(olga, "V1 alone")).toContainText("by Ana: Not right yet.");
  await expect(rows(olga, "V1 alone").getByRole("radio").first()).toBeDisabled();
  await expect(source(olga, "V2", "a short")).toBeHidden();
  await expect(ownLines(olga, "V1 alone")).toBeHidden();
});

test("while a pen is in hand the sources take no press, and nothing lies over the pen's own words", async ({
  asking,
}) => {
  const ben = await asking.join("Ben");
  await ben.card("V1").click();
  await expect(source(ben, "I1", "kept")).toBeVisible();
  await expect(bar(ben, "V1 alone")).toBeVisible();
  await ben.button("Words").click();
  await expect(ben.page.getByText("Click where the words begin", { exact: false })).toBeVisible();
  await expect(source(ben, "I1", "kept")).toBeHidden();
  await expect(bar(ben, "V1 alone")).toBeHidden();
  // Beside the working the sources can be decided on all the same.
  await expect(rows(ben, "V1 alone")).toBeVisible();
  await ben.tool("Stretch");
  await expect(bar(ben, "V1 alone")).toBeVisible();
});
