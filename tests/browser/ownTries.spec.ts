import { expect } from "@playwright/test";
import type { BoardPage } from "./boardPage";
import { saidAt, test, tryValue } from "./classroom";
import { auditPage } from "./pageAudit";

// The example's own answers: V1 60 mA, I1 −20 mA, V2 −15 mA, together 25 mA (shared/examples/three-sources.json).

// Three browsers at once take their time on two busy cores.
test.setTimeout(120_000);

/** Goes to one's own try by the link at the head of the room. */
async function openTry(board: BoardPage): Promise<void> {
  await board.page.getByRole("link", { name: "Own try" }).click();
  await expect(board.page.getByText("Your own try.")).toBeVisible();
  await expect(board.page.getByText("Connected", { exact: true })).toBeVisible();
  await expect(board.sheet).toBeVisible();
}

/** Opens the list of own tries on the sheet “Class”. */
const triesOf = async (board: BoardPage) => (await board.sheetOf("Class")).getByRole("region", { name: "Own tries" });

test("a learner draws and tries alone: another learner sees and gets nothing of it, the instructor sees all", async ({
  classroom: { ana, code, join },
}) => {
  const [ben, cem] = [await join("Ben"), await join("Cem")];
  await expect(ana.page.getByRole("link", { name: "Own try" })).toBeHidden();
  await openTry(ben);
  expect(new URL(ben.page.url()).pathname).toBe(`/room/${code}/try`);
  // In the room every answer is shown; here it is for Ben to find.
  await cem.expectValue("I1", "Iy″ = −20 mA");
  await expect(ben.tryField("I1 alone")).toBeVisible();
  await expect(ben.page.getByText("−20 mA")).toBeHidden();
  for (const word of ["Class", "Invite"]) await expect(ben.button(word)).toBeHidden();

  // Across V1, so that no answer is another.
  await ben.stretch([-2, 0], [-2, 4], "4.7k");
  await ben.stretch([-2, 0], [0, 0], "");
  await ben.stretch([-2, 4], [0, 4], "");
  await tryValue(ben, "I1 alone", "20 mA");
  await expect(saidAt(ben, "I1")).toContainText("You: 20 mA");
  await expect(ben.tryField("I1 alone")).toBeVisible();
  await tryValue(ben, "I1 alone", "-20 mA");
  await ben.expectValue("I1", "Iy″ = −20 mA");
  await expect(saidAt(ben, "I1")).toContainText("Right.");
  await expect(ben.tryField("I1 alone")).toBeHidden();
  await expect(ben.tryField("V1 alone")).toBeVisible();

  // Nothing of it is in the room, and its address is closed to Cem.
  await expect(cem.words().filter({ hasText: "4.7" })).toHaveCount(0);
  await expect(saidAt(cem, "I1")).toHaveCount(0);
  const list = await triesOf(ana);
  await expect(list.getByText(/^1 of 4 right, last changed at /)).toBeVisible({ timeout: 15_000 });
  const link = list.getByRole("link", { name: "Ben" });
  const address = (await link.getAttribute("href")) ?? "";
  await cem.page.goto(address);
  await expect(cem.page.getByRole("heading", { name: "This is somebody else’s own try" })).toBeVisible();
  await expect(cem.page.getByText("Ben")).toBeHidden();
  await cem.page.goto(`/room/${address.split("/").at(-1)}`);
  await expect(cem.page.getByText("No room has this code.")).toBeVisible();

  // The instructor sees board and tries as they are, and what is drawn there on both pages.
  await link.click();
  await expect(ana.page.getByText("Ben’s own try. Only Ben and instructors see it.")).toBeVisible();
  await expect(ana.words().filter({ hasText: "4.7" })).toHaveCount(1);
  await expect(saidAt(ana, "I1")).toContainText("Ben: -20 mA");
  await ana.expectValue("total", "Iy = 25 mA");
  await expect(ana.button("Begin again")).toBeHidden();
  await ana.page.getByRole("button", { name: "Reveal “V2 alone”" }).click();
  await ben.expectValue("V2", "Iy‴ = −15 mA");
  await expect(ben.tryField("V1 alone")).toBeVisible();

  // What was done there is there again, and the way leads back to the room.
  await ben.page.reload();
  await ben.expectValue("I1", "Iy″ = −20 mA");
  await expect(ben.words().filter({ hasText: "4.7" })).toHaveCount(1);
  await ben.page.getByRole("link", { name: "Back to the room" }).click();
  await ben.expectValue("V1", "Iy′ = 60 mA");
  expect(new URL(ben.page.url()).pathname).toBe(`/room/${code}`);
  await expect(ben.words().filter({ hasText: "4.7" })).toHaveCount(0);
  // The list of rooms has the room alone.
  await ben.page.goto("/");
  await expect(ben.page.getByRole("region", { name: "Rooms you were in" }).getByRole("listitem")).toHaveCount(1);
});

test("a try begun again has the room's circuit of now, by keyboard too", async ({ classroom: { ana, join } }) => {
  const ben = await join("Ben");
  await openTry(ben);
  await ben.stretch([7, -3], [11, -3], "4.7k");
  await expect(ben.words().filter({ hasText: "4.7" })).toHaveCount(1);
  await ana.stretch([7, -3], [11, -3], "8.2k");
  await expect(ana.words().filter({ hasText: "8.2" })).toHaveCount(1);
  await ben.button("Begin again").focus();
  await ben.page.keyboard.press("Enter");
  await expect(ben.page.getByText("What was drawn and written here goes")).toBeVisible();
  await ben.button("Leave it as it is").click();
  await expect(ben.words().filter({ hasText: "4.7" })).toHaveCount(1);
  await ben.button("Begin again").click();
  await ben.button("Take the room’s circuit").click();
  await expect(ben.words().filter({ hasText: "8.2" })).toHaveCount(1);
  await expect(ben.words().filter({ hasText: "4.7" })).toHaveCount(0);
});

test("whoever is removed from the room loses their try at once, and whoever has not joined gets none", async ({
  classroom: { ana, code, join },
  newPage,
}) => {
  const ben = await join("Ben");
  await openTry(ben);
  const sheet = await ana.sheetOf("Class");
  await sheet.getByRole("button", { name: "Remove Ben" }).click();
  await sheet.getByRole("button", { name: "Remove Ben" }).click();
  await expect(ben.page.getByRole("heading", { name: `You are not in room ${code} any more` })).toBeVisible();
  const stranger = await newPage();
  await stranger.goto(`/room/${code}/try`);
  await expect(stranger.getByRole("heading", { name: `You have not joined room ${code}` })).toBeVisible();
  await stranger.getByRole("link", { name: `To room ${code}` }).click();
  await expect(stranger.getByRole("heading", { name: `Join room ${code}` })).toBeVisible();
});

test("on a phone a try is opened and used by touch, and every target and label is as it should be", async ({
  classroom: { ana, join },
}) => {
  const ben = await join("Ben", 390, 844);
  await ben.page.getByRole("link", { name: "Own try" }).tap();
  await expect(ben.page.getByText("Your own try. Only you and the instructor see it.")).toBeVisible();
  await ben.tryField("V2 alone").tap();
  await ben.page.keyboard.type("-15 mA");
  await ben.page.getByRole("button", { name: "Try this value for Iy, V2 alone" }).tap();
  await ben.expectValue("V2", "Iy‴ = −15 mA");
  await ben.button("Begin again").tap();
  await expect(ben.button("Take the room’s circuit")).toBeVisible();
  expect(await ben.overflow()).toBeLessThanOrEqual(0);
  expect(await auditPage(ben.page)).toEqual([]);
  const list = await triesOf(ana);
  await expect(list.getByRole("link", { name: "Ben" })).toBeVisible();
  expect(await auditPage(ana.page)).toEqual([]);
});
