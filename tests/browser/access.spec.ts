import { expect, type Locator, type Page } from "@playwright/test";
import { BoardPage } from "./boardPage";
import { test } from "./classroom";
import { Line } from "./line";

/** An instructor and a learner in browsers of their own, both in one room. */
async function twoPeople(page: Page, newPage: () => Promise<Page>) {
  const [ana, ben] = [new BoardPage(page), new BoardPage(await newPage())];
  const code = await ana.start("Ana");
  await ben.join(code, "Ben");
  return { ana, ben, code };
}

/** Presses a choice and waits until the room has taken it. */
async function set(choice: Locator): Promise<void> {
  await choice.click();
  await expect(choice).toBeChecked();
}

test.describe("with an instructor and a learner", () => {
  test("a room is started, its code is told, and another browser joins by it under a name", async ({
    page,
    newPage,
  }) => {
    const ana = new BoardPage(page);
    await page.goto("/");
    await ana.button("Start with a blank page").click();
    await expect(page.getByText("Type your name first; you are the instructor of the room.")).toBeVisible();
    await page.getByLabel("Your name, as the others see it").fill("Ana");
    await ana.button("Start with a blank page").click();
    await expect(page.getByText("Draw a circuit, and its sum stands here")).toBeVisible();
    const invite = await ana.sheetOf("Invite");
    const code = new URL(page.url()).pathname.split("/").at(-1) ?? "";
    await expect(invite.getByText(code, { exact: true })).toBeVisible();
    const link = await invite.getByLabel("Link for learners").inputValue();
    expect(new URL(link).pathname).toBe(`/room/${code}`);

    const second = await newPage();
    await second.goto("/");
    // Read out loud or copied from a screen, a code comes with spaces and capitals.
    await second.getByLabel("The room’s code").fill(` ${code.slice(0, 3).toUpperCase()} ${code.slice(3)} `);
    await second.getByRole("button", { name: "Join", exact: true }).click();
    await second.getByRole("heading", { name: `Join room ${code}` }).waitFor();
    await second.getByRole("button", { name: "Join", exact: true }).click();
    await expect(second.getByText("Type a name first.")).toBeVisible();
    await second.getByLabel("Your name, as the others see it").fill("Ben");
    await second.getByRole("button", { name: "Join", exact: true }).click();
    await expect(second.getByText("Connected", { exact: true })).toBeVisible();

    await ana.closeSheet();
    const people = (await ana.sheetOf("Class")).getByRole("region", { name: "People" }).getByRole("listitem");
    await expect(people).toHaveText([/^Ana you, instructor, here/, /^Ben learner, here/]);

    // The name is remembered, and so is the room.
    await second.goto("/");
    await expect(second.getByLabel("Your name, as the others see it")).toHaveValue("Ben");
    await second.getByRole("region", { name: "Rooms you were in" }).getByRole("link").click();
    await expect(second.getByText("Connected", { exact: true })).toBeVisible();
  });

  test("the instructor's link makes an instructor, and stands on their sheet alone", async ({ page, newPage }) => {
    const ana = new BoardPage(page);
    await page.goto("/");
    await page.getByLabel("Your name, as the others see it").fill("Ana");
    await ana.button("Start with a blank page").click();
    const invite = await ana.sheetOf("Invite");
    await expect(invite.getByText("Whoever has this link is an instructor of this room")).toBeVisible();
    const link = await invite.getByLabel("Link for instructors").inputValue();

    const second = new BoardPage(await newPage());
    await second.page.goto(link);
    await second.page.getByLabel("Your name, as the others see it").fill("Cem");
    await expect(second.page.getByText("you join as an instructor")).toBeVisible();
    await second.button("Join").click();
    await expect(second.page.getByText("Connected", { exact: true })).toBeVisible();
    expect(new URL(second.page.url()).hash).toBe("");
    await expect((await second.sheetOf("Class")).getByText("Who may draw")).toBeVisible();

    const third = new BoardPage(await newPage());
    await third.join(new URL(link).pathname.split("/").at(-1) ?? "", "Ben");
    const theirs = await third.sheetOf("Invite");
    await expect(theirs.getByLabel("Link for learners")).toBeVisible();
    await expect(theirs.getByText("instructor", { exact: false })).toHaveCount(0);
    await third.closeSheet();
    await expect((await third.sheetOf("Class")).getByText("Who may draw")).toHaveCount(0);
  });

  test("only those draw whom the instructor lets", async ({ page, newPage }) => {
    const { ana, ben } = await twoPeople(page, newPage);
    const panel = await ana.sheetOf("Class");
    await set(panel.getByLabel("Only me"));
    await expect(ben.page.getByText("Only the instructor draws at the moment.")).toBeVisible();
    await ben.stretch([4, 4], [8, 4], "1k");
    await expect(ben.page.getByText("You can look at this board, but not draw on it now.")).toBeVisible();
    await expect(ben.words()).toHaveCount(0);
    await ben.button("Understood").click();
    await expect(ben.page.getByText("You can look at this board, but not draw on it now.")).toBeHidden();

    await set(panel.getByLabel("The people chosen below"));
    await expect(ben.page.getByText("The instructor has chosen who draws")).toBeVisible();
    await set(panel.getByLabel("may draw"));
    await expect(ben.page.getByText("The instructor has chosen who draws")).toBeHidden();
    await ben.stretch([4, 4], [8, 4], "1k");
    await expect(ana.words()).toHaveText(["R1resistor of 1 kΩ, between node a and node b"]);
  });

  test("what the server refuses is taken back from the page that drew it, for good", async ({ page, newPage }) => {
    const { ana, ben } = await twoPeople(page, newPage);
    await ana.stretch([4, 8], [8, 8], "2k");
    await expect(ben.words()).toHaveCount(1);
    const line = await Line.of(ben.page);
    await ben.page.reload();
    await expect(ben.page.getByText("Connected", { exact: true })).toBeVisible();
    await line.cut();
    await expect(ben.page.getByText("Not connected since")).toBeVisible();
    await ben.stretch([4, 4], [8, 4], "1k");
    await expect(ben.words()).toHaveCount(2);

    await set((await ana.sheetOf("Class")).getByLabel("Only me"));
    line.mend();
    await expect(
      ben.page.getByText("The last change was not taken in, and the board is shown as the room"),
    ).toBeVisible();
    const rooms = ["R1resistor of 2 kΩ, between node a and node b"];
    await expect(ben.words()).toHaveText(rooms);
    await expect(ben.page.getByText("Connected", { exact: true })).toBeVisible();
    await ben.page.reload();
    await expect(ben.words()).toHaveText(rooms);
    await ana.closeSheet();
    await expect(ana.words()).toHaveText(rooms);
    // The repaired page goes on following the room.
    await ana.click([6, 8]);
    await ana.page.getByLabel("Value", { exact: true }).fill("3k");
    await ana.page.getByLabel("Value", { exact: true }).press("Enter");
    await expect(ben.words()).toHaveText(["R1resistor of 3 kΩ, between node a and node b"]);
  });

  test("hidden answers stand on no learner's page until they are revealed", async ({ page, newPage }) => {
    const [ana, ben] = [new BoardPage(page), new BoardPage(await newPage())];
    const code = await ana.start("Ana", { kind: "example", id: "three-sources" });
    await ben.join(code, "Ben");
    // The example's own answers: 60 mA − 20 mA − 15 mA = 25 mA (shared/examples/three-sources.json).
    await ben.expectValue("V1", "Iy′ = 60 mA");
    await set((await ana.sheetOf("Class")).getByLabel("All hidden until revealed"));
    await ana.closeSheet();
    for (const title of ["V1 alone", "I1 alone", "V2 alone", "All sources"]) {
      await expect(ben.tryField(title)).toBeVisible();
    }
    await expect(ben.page.getByText("60 mA")).toHaveCount(0);
    await ana.expectValue("V1", "Iy′ = 60 mA");

    await ana.button("Reveal “V1 alone”").click();
    await ben.expectValue("V1", "Iy′ = 60 mA");
    await expect(ben.tryField("I1 alone")).toBeVisible();
    await expect((await ana.sheetOf("Class")).getByText("Hidden but for V1.")).toBeVisible();
    await ana.closeSheet();
    await ana.button("Hide “V1 alone”").click();
    await expect(ben.tryField("V1 alone")).toBeVisible();
    await expect(ben.page.getByText("60 mA")).toHaveCount(0);
    await expect(ben.button("Reveal “V1 alone”")).toHaveCount(0);
  });

  test("a locked room takes nobody new, and says so to those who are in it", async ({ page, newPage }) => {
    const { ana, ben, code } = await twoPeople(page, newPage);
    const lock = (await ana.sheetOf("Class")).getByLabel("Locked:");
    await set(lock);
    await expect(ben.page.getByText("The instructor has locked this room")).toBeVisible();
    const third = await newPage();
    await third.goto(`/room/${code}`);
    await expect(third.getByRole("heading", { name: `Room ${code} is locked` })).toBeVisible();
    // Whoever had the form open before is told when they join.
    const fourth = await newPage();
    await lock.click();
    await expect(ben.page.getByText("The instructor has locked this room")).toBeHidden();
    await fourth.goto(`/room/${code}`);
    await fourth.getByLabel("Your name, as the others see it").fill("Dan");
    await set(lock);
    await fourth.getByRole("button", { name: "Join", exact: true }).click();
    await expect(fourth.getByRole("heading", { name: `Room ${code} is locked` })).toBeVisible();
    await lock.click();
    await expect(ben.page.getByText("The instructor has locked this room")).toBeHidden();
    await third.getByRole("button", { name: "Try again" }).click();
    await third.getByLabel("Your name, as the others see it").fill("Cem");
    await third.getByRole("button", { name: "Join", exact: true }).click();
    await expect(third.getByText("Connected", { exact: true })).toBeVisible();
  });

  test("a removed participant is told so, and does not come back", async ({ page, newPage }) => {
    const { ana, ben, code } = await twoPeople(page, newPage);
    const panel = await ana.sheetOf("Class");
    await panel.getByRole("button", { name: "Remove Ben" }).click();
    await expect(panel.getByText("Ben cannot come back into this room")).toBeVisible();
    await panel.getByRole("button", { name: "Remove Ben" }).click();
    await expect(ben.page.getByRole("heading", { name: `You are not in room ${code} any more` })).toBeVisible();
    await expect(panel.getByText("Ben")).toHaveCount(0);
    await ben.page.goto(`/room/${code}`);
    await ben.page.getByLabel("Your name, as the others see it").fill("Ben");
    await ben.page.getByRole("button", { name: "Join", exact: true }).click();
    await expect(ben.page.getByRole("heading", { name: `You are not in room ${code} any more` })).toBeVisible();
  });

  test("a room that has ended can be read by those in it, and joined by nobody", async ({ page, newPage }) => {
    const { ana, ben, code } = await twoPeople(page, newPage);
    await ana.stretch([4, 4], [8, 4], "1k");
    const panel = await ana.sheetOf("Class");
    await panel.getByRole("button", { name: "End the room" }).click();
    await panel.getByRole("button", { name: "End it for everyone" }).click();
    for (const each of [ana, ben]) await expect(each.page.getByText("This room has ended.").first()).toBeVisible();
    await expect(ben.words()).toHaveCount(1);
    await ben.stretch([4, 8], [8, 8], "2k");
    await expect(ben.page.getByText("The last change was not taken in")).toBeVisible();
    await expect(ben.words()).toHaveCount(1);
    const third = await newPage();
    await third.goto(`/room/${code}`);
    await expect(third.getByRole("heading", { name: `Room ${code} has ended` })).toBeVisible();
  });

  test("people are renamed by themselves and by the instructor", async ({ page, newPage }) => {
    const { ana, ben } = await twoPeople(page, newPage);
    const theirs = await ben.sheetOf("Class");
    await expect(theirs.getByRole("button", { name: "Rename Ana" })).toHaveCount(0);
    await theirs.getByRole("button", { name: "Rename Ben" }).click();
    await theirs.getByLabel("New name of Ben").fill("Benno");
    await theirs.getByRole("button", { name: "Save" }).click();
    const panel = await ana.sheetOf("Class");
    await expect(panel.getByText("Benno")).toBeVisible();
    await panel.getByRole("button", { name: "Rename Benno" }).click();
    await panel.getByLabel("New name of Benno").fill("Ben K");
    await panel.getByRole("button", { name: "Save" }).click();
    await expect(theirs.getByText("Ben K")).toBeVisible();
  });
});

test("a room that is not there, and a key that is not the room's, are refused in plain words", async ({ page }) => {
  await page.goto("/room/zzzzzz");
  await expect(page.getByRole("heading", { name: "There is no room zzzzzz" })).toBeVisible();
  const code = await new BoardPage(await page.context().newPage()).start("Ana");
  await page.context().clearCookies();
  await page.goto(`/room/${code}#key=AAAAAAAAAAAAAAAAAAAAAA`);
  await page.getByLabel("Your name, as the others see it").fill("Ben");
  await page.getByRole("button", { name: "Join", exact: true }).click();
  await expect(page.getByRole("heading", { name: "This instructor link does not open the room" })).toBeVisible();
  await page.goto("/");
  await page.getByLabel("The room’s code").fill("no such code!");
  await page.getByRole("button", { name: "Join", exact: true }).click();
  await expect(page.getByText("A code is six letters and digits")).toBeVisible();
});

test("somebody who only looks on sees the board and cannot draw on it", async ({ page, newPage }) => {
  const ana = new BoardPage(page);
  const code = await ana.start("Ana");
  const guest = await newPage();
  await guest.goto(`/room/${code}`);
  await guest.getByLabel("Your name, as the others see it").fill("Dia");
  await guest.getByLabel("Only look on, without drawing").check();
  await guest.getByRole("button", { name: "Join", exact: true }).click();
  await expect(guest.getByText("You are looking on, without drawing.")).toBeVisible();
});
