import { expect, type Locator } from "@playwright/test";
import { BoardPage } from "./boardPage";
import { type Classroom, test as classroomTest, saidAt, tryValue } from "./classroom";
import { Line } from "./line";
import { auditPage } from "./pageAudit";

// The example's own answers: V1 60 mA, I1 −20 mA, V2 −15 mA, together 25 mA (shared/examples/three-sources.json).

/** A classroom whose answers are hidden. */
const test = classroomTest.extend<{ hidden: Classroom }>({
  hidden: async ({ classroom }, provide) => {
    const { ana } = classroom;
    await (await ana.sheetOf("Class")).getByLabel("All hidden until revealed").click();
    await ana.closeSheet();
    await provide(classroom);
  },
});

/** The help beside the working of the open card. */
const helpOf = (board: BoardPage, title: string): Locator =>
  board.page.getByRole("region", { name: `Help with ${title}`, exact: true });

/** Canvases on the board: two more while something on it is lit. */
const canvases = (board: BoardPage): Promise<number> =>
  board.page.evaluate(() => document.querySelectorAll("[aria-label='Drawing board'] canvas").length);

// Three browsers at once take their time on two busy cores.
test.setTimeout(90_000);

test("a learner tries the wrong sign, then the right value; everybody sees it, and a reload keeps it", async ({
  hidden: { ana, join },
}) => {
  const [ben, cem] = [await join("Ben"), await join("Cem")];
  await expect(ana.tryField("I1 alone")).toBeHidden();

  await tryValue(ben, "I1 alone", "20 mA");
  await expect(saidAt(ben, "I1")).toHaveText("You: 20 mANot right yet.");
  await expect(saidAt(cem, "I1")).toHaveText("Ben: 20 mANot right yet.");
  await expect(saidAt(ana, "I1")).toHaveText("Ben: 20 mANot right yet. One try so far.");
  await expect(ben.tryField("I1 alone")).toHaveValue("20 mA");

  // On a small laptop what is tried leaves the working more than half of the page, its buttons in one row.
  await ana.page.setViewportSize({ width: 1024, height: 768 });
  const tops = ["Next line", "Hide lines"].map(async (word) => (await ana.button(word).boundingBox())?.y);
  expect(new Set(await Promise.all(tops)).size).toBe(1);
  const notes = await ana.page.getByRole("complementary", { name: "Notes" }).boundingBox();
  expect(notes?.height).toBeGreaterThan(768 * 0.6);

  await tryValue(ben, "I1 alone", "-I1*(R4 || R5)/(R1||R2 + R3 + R4||R5)");
  await expect(saidAt(ben, "I1")).toContainText("Right.");
  await expect(saidAt(cem, "I1").locator('[data-mark="right"]')).toBeVisible();
  await expect(saidAt(ana, "I1")).toContainText("Right. 2 tries so far.");

  await cem.page.reload();
  await expect(saidAt(cem, "I1")).toContainText("Ben: -I1*(R4 || R5)/(R1||R2 + R3 + R4||R5)Right.");

  // Revealed, there is nothing left to try, and what was tried stands.
  await ana.page.getByRole("button", { name: "Reveal “I1 alone”" }).click();
  await ben.expectValue("I1", "Iy″ = −20 mA");
  await expect(ben.tryField("I1 alone")).toBeHidden();
  await expect(saidAt(ben, "I1")).toContainText("Right.");
});

test("a learner makes three mistakes, gets the rungs that are asked for, mends them and finishes", async ({
  hidden: { ana, join },
}) => {
  const [ben, cem] = [await join("Ben"), await join("Cem")];
  const atRest = await canvases(ben);

  // 60 + 20 − 15: I1's addend with the other sign, or I1 itself turned round. Nobody but Ben knows which.
  await tryValue(ben, "All sources", "65 mA");
  await ben.button("Ask for help: Iy, All sources").click();
  const total = helpOf(ben, "All sources");
  await expect(total).toContainText("Two ways lead to this value. Did you …");
  await expect(total.getByRole("button", { name: "take the addend of I1 with the other sign" })).toBeFocused();
  await ben.page.keyboard.press("Enter");
  await expect(total.getByRole("listitem")).toHaveText([
    "Compare the direction of each addend with the reference direction.",
  ]);
  await expect(total.getByRole("listitem")).toBeFocused();

  // V1 left on while I1 acts: −20 mA + 60 mA.
  await tryValue(ben, "I1 alone", "40 mA");
  await ben.button("Ask for help: Iy, I1 alone").click();
  const help = helpOf(ben, "I1 alone");
  await expect(help.getByRole("listitem")).toHaveText(["Count the sources that act in this circuit."]);
  await expect(help.getByRole("listitem")).toBeFocused();
  await expect(ben.card("I1")).toHaveAttribute("aria-pressed", "true");
  await expect.poll(() => canvases(ben)).toBe(atRest);
  await help.getByRole("button", { name: "Ask for more help" }).click();
  await expect(help.getByRole("listitem")).toHaveCount(2);
  // Another learner of the group reads on where the first has stopped.
  await cem.button("Read the help: Iy, I1 alone").click();
  await helpOf(cem, "I1 alone").getByRole("button", { name: "Ask for more help" }).click();
  await expect(help.getByRole("listitem").last()).toHaveText("Zero V1 here; its part comes in its own addend.");
  await expect.poll(() => canvases(ben)).toBe(atRest + 2);
  await expect(help.getByRole("button", { name: /help/ })).toHaveCount(0);
  // The reason is a learner's to give.
  await expect(cem.button("Say why: Iy, I1 alone")).toBeVisible();
  await expect(ana.button("Read the help: Iy, I1 alone")).toBeVisible();
  await help.getByLabel("In one line: why was it so?").fill("V1 was still on.");
  await help.getByRole("button", { name: "Give the reason" }).click();
  await expect(help).toContainText("The reason is kept for the instructor.");
  await expect(ana.card("I1").locator("..")).toContainText("Ben’s reason: V1 was still on.");
  await expect(helpOf(cem, "I1 alone")).not.toContainText("V1 was still on.");
  // The field beside the working does what the card's does.
  await ben.page.getByRole("textbox", { name: "Value to try for Iy, I1 alone" }).fill("-20 mA");
  await ben.page.getByRole("button", { name: "Try the value beside the working of I1 alone" }).click();
  await expect(saidAt(ben, "I1")).toHaveText("You: -20 mARight.");

  // The sign, by keyboard alone.
  await ben.tryField("V1 alone").focus();
  await ben.page.keyboard.type("-60 mA");
  await ben.page.keyboard.press("Enter");
  await expect(saidAt(ben, "V1")).toContainText("Not right yet.");
  await ben.button("Ask for help: Iy, V1 alone").focus();
  await ben.page.keyboard.press("Enter");
  const sign = helpOf(ben, "V1 alone");
  await expect(sign.getByRole("listitem")).toBeFocused();
  for (const count of [2, 3]) {
    await ben.page.keyboard.press("Tab");
    await expect(sign.getByRole("button", { name: "Ask for more help" })).toBeFocused();
    await ben.page.keyboard.press("Enter");
    await expect(sign.getByRole("listitem")).toHaveCount(count);
    await expect(sign.getByRole("listitem").last()).toBeFocused();
  }
  await expect(sign.getByRole("listitem").last()).toHaveText("Turn the sign round.");
  await ben.page.keyboard.press("Tab");
  await ben.page.keyboard.type("The arrow points the other way");
  await ben.page.keyboard.press("Enter");
  await expect(ana.card("V1").locator("..")).toContainText("Ben’s reason: The arrow points the other way");
  await expect(sign.getByRole("listitem").last()).toBeFocused();
  await tryValue(ben, "V1 alone", "60 mA");
  await expect(saidAt(ben, "V1")).toHaveText("You: 60 mARight.");

  // Added up rightly from a wrong value: one mistake is marked once.
  await tryValue(cem, "V2 alone", "15 mA");
  await expect(saidAt(ben, "V2")).toContainText("Not right yet.");
  await tryValue(cem, "All sources", "55 mA");
  await expect(saidAt(ben, "total").locator('[data-mark="follows"]')).toBeVisible();
  await expect(saidAt(cem, "total")).toContainText("Still to be mended: the addend of V2.");
  await tryValue(ben, "V2 alone", "-15 mA");
  await expect(saidAt(ben, "total")).toContainText("add up again");
  await tryValue(ben, "All sources", "25 mA");
  for (const key of ["V1", "I1", "V2", "total"]) {
    await expect(saidAt(cem, key).locator('[data-mark="right"]')).toBeVisible();
  }
});

test("values wait until they are handed in where the instructor says so, to as many figures as count", async ({
  hidden: { ana, join },
}) => {
  const [ben, cem] = [await join("Ben"), await join("Cem")];
  const sheet = await ana.sheetOf("Class");
  await sheet.getByLabel("All are judged when they are handed in").click();
  await sheet.getByLabel("significant figures count").selectOption("2");
  // The box is as the room has it: it changes when the server has said so.
  await sheet.getByLabel("A value needs its unit").click();
  await expect(sheet.getByLabel("A value needs its unit")).not.toBeChecked();
  expect(await auditPage(ana.page)).toEqual([]);
  await ana.closeSheet();

  await expect(ben.page.getByText("Values are judged when they are handed in.")).toBeVisible();
  await tryValue(ben, "V1 alone", "0.0604");
  await expect(saidAt(ben, "V1")).toHaveText("You: 0.0604Entered, not handed in yet.");
  await tryValue(cem, "I1 alone", "20 mA");
  await expect(saidAt(ben, "I1")).toHaveText("Cem: 20 mAEntered, not handed in yet.");
  await expect(ana.page.getByText("2 values are entered.")).toBeVisible();
  await expect(ben.button("Ask for help: Iy, I1 alone")).toBeHidden();
  await tryValue(ben, "V2 alone", "-15 mA");
  // A finger finds it like the buttons beside it.
  const send = ben.button("Try this value for Iy, V2 alone");
  await ben.page.setViewportSize({ width: 390, height: 844 });
  const heights = [ben.button("Hand in"), send].map(async (each) => (await each.boundingBox())?.height);
  expect(await Promise.all(heights)).toEqual([42, 42]);
  await ben.button("Hand in").click();
  await expect(saidAt(cem, "V1")).toHaveText("Ben: 0.0604Right.");
  await expect(saidAt(cem, "I1")).toHaveText("You: 20 mANot right yet.");
  await expect(saidAt(cem, "V2")).toHaveText("Ben: -15 mARight.");
  await expect(ben.button("Hand in")).toBeHidden();
  await cem.button("Ask for help: Iy, I1 alone").click();
  await expect(helpOf(cem, "I1 alone").getByRole("listitem")).toHaveCount(1);
});

test("on a phone the help comes with a small drawing that shows what is lit", async ({ hidden: { join } }) => {
  const ben = await join("Ben", 390, 844);
  await tryValue(ben, "I1 alone", "40 mA");
  await ben.button("Ask for help: Iy, I1 alone").tap();
  const help = helpOf(ben, "I1 alone");
  await expect(help.getByRole("listitem")).toBeInViewport();
  for (const count of [2, 3]) {
    await help.getByRole("button", { name: "Ask for more help" }).tap();
    await expect(help.getByRole("listitem")).toHaveCount(count);
  }
  await expect(help.getByRole("listitem").last()).toBeInViewport();
  await expect(help.locator("svg")).toBeVisible();
  expect(await ben.overflow()).toBeLessThanOrEqual(0);
  expect(await auditPage(ben.page)).toEqual([]);
});

test("what can't be read is told to whoever wrote it alone, and the total is tried like the addends", async ({
  hidden: { ana, join },
}) => {
  const ben = await join("Ben");
  await tryValue(ben, "All sources", "60 mA + 3 V");
  await expect(saidAt(ben, "total")).toHaveText("A current (A) and a voltage (V) can't be added.");
  await expect(ben.tryField("All sources")).toHaveAttribute("aria-invalid", "true");
  await tryValue(ben, "All sources", "60 mA − 20 mA − 15 mA");
  await expect(saidAt(ben, "total")).toHaveText("You: 60 mA − 20 mA − 15 mARight.");
  await expect(saidAt(ana, "total")).toContainText("One try so far.");
  // Text is text, whatever it looks like.
  await tryValue(ben, "V1 alone", "<b>60 mA</b>");
  await expect(saidAt(ben, "V1")).toHaveText('Behind "∠" a phase is expected, such as 45°.');
});

test("a try is marked when the circuit's answer is another by now", async ({ hidden: { ana, join } }) => {
  const ben = await join("Ben");
  await tryValue(ben, "V1 alone", "60 mA");
  await expect(saidAt(ben, "V1")).toContainText("Right.");
  await ana.tool("Select");
  await ana.words().filter({ hasText: "V1" }).getByRole("button").first().click();
  const value = ana.page.getByLabel("Value", { exact: true });
  await value.fill("30 V");
  await value.press("Enter");
  await expect(saidAt(ben, "V1")).toHaveText("You: 60 mATried before the circuit was changed.");
});

test("on a phone a learner answers by touch, and every target and label is as it should be", async ({
  hidden: { join },
}) => {
  const ben = await join("Ben", 390, 844);
  await ben.tryField("V2 alone").tap();
  await expect(ben.tryField("V2 alone")).toBeFocused();
  await expect(ben.tryField("V2 alone")).toBeInViewport();
  await ben.page.keyboard.type("15 mA");
  await ben.page.getByRole("button", { name: "Try this value for Iy, V2 alone" }).tap();
  await expect(saidAt(ben, "V2")).toHaveText("You: 15 mANot right yet.");
  await expect(saidAt(ben, "V2")).toBeInViewport();
  expect(await ben.overflow()).toBeLessThanOrEqual(0);
  expect(await auditPage(ben.page)).toEqual([]);
});

test("what could not be tried while the room was out of reach stays in the field, and is tried once it is back", async ({
  hidden: { code, ana },
  newPage,
}) => {
  const ben = new BoardPage(await newPage());
  const line = await Line.of(ben.page);
  await ben.join(code, "Ben");
  await ben.card("V1").click();
  const ownLine = ben.page.getByLabel("A line of your own");
  await line.cut();
  await expect(ben.page.getByText("Not connected", { exact: false }).first()).toBeVisible();
  const nothing = ben.page.getByText("The room can't be reached at the moment, so nothing was tried.");
  await tryValue(ben, "V1 alone", "60 mA");
  await ownLine.fill("Iy = I_R4 + I_R5");
  await ownLine.press("Enter");
  await expect(nothing).toHaveCount(2);
  line.mend();
  await expect(ben.page.getByText("Connected", { exact: true })).toBeVisible();
  await expect(nothing).toHaveCount(0);
  await expect(ownLine).toHaveValue("Iy = I_R4 + I_R5");
  await expect(ben.tryField("V1 alone")).toHaveValue("60 mA");
  await ben.tryField("V1 alone").press("Enter");
  await expect(saidAt(ana, "V1")).toHaveText("Ben: 60 mARight. One try so far.");
});

test("an observer sees what is tried, and has no field", async ({ hidden: { code, join }, newPage }) => {
  const ben = await join("Ben");
  await tryValue(ben, "V1 alone", "61 mA");
  const olga = new BoardPage(await newPage());
  await olga.observe(code, "Olga");
  await expect(saidAt(olga, "V1")).toHaveText("Ben: 61 mAThe sign is right, the size is 1.02 times the right one.");
  await expect(olga.tryField("V1 alone")).toBeHidden();
  await olga.expectValue("V1", "Iy′ = hidden until revealed");
});
