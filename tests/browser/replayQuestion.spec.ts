import { expect, type Page } from "@playwright/test";
import { test, tryValue } from "./classroom";
import { auditPage } from "./pageAudit";
import { ReplayPage } from "./replayPage";

// 60 + 20 − 15 mA: the addend of I1 with the other sign, or I1 itself turned round (shared/examples/three-sources.json).

test.setTimeout(90_000);

test("a replay has the question between two mistakes as it stood, and then its answer for those who may know it", async ({
  classroom: { ana, code, join },
}) => {
  await (await ana.sheetOf("Class")).getByLabel("All hidden until revealed").click();
  await ana.closeSheet();
  const [ben, cem] = [await join("Ben"), await join("Cem", 390, 844)];
  await tryValue(ben, "All sources", "65 mA");
  await ben.button("Ask for help: Iy, All sources").click();
  const helpOn = (page: Page) => page.getByRole("region", { name: "Help with All sources", exact: true });
  await helpOn(ben.page).getByRole("button", { name: "take I1 with its polarity turned round" }).click();
  await expect(helpOn(ben.page).getByRole("listitem")).toHaveCount(1);

  const question =
    "Two ways lead to this value. Did you take the addend of I1 with the other sign, or did you take I1 with its polarity turned round?";
  for (const [{ page }, answer] of [
    [ben, "Answered by you: take I1 with its polarity turned round"],
    [cem, "Answered by Ben."],
    [ana, "Answered by Ben: take I1 with its polarity turned round"],
  ] as const) {
    const replay = new ReplayPage(page);
    await replay.open(code);
    await replay.find("Ben", /^.*is asked about all sources: “Two ways lead to this value/);
    await expect(helpOn(page)).toHaveText(question);
    await expect(page.getByRole("region", { name: "The sum", exact: true })).toContainText("65 mANot right yet.");
    await replay.find("Ben", /answers the question about all sources/);
    await expect(helpOn(page)).toHaveText(question + answer);
    await replay.find("Ben", /asks for help with all sources: “/);
    await expect(helpOn(page)).toContainText(question + answer);
    await expect(helpOn(page).getByRole("listitem")).toHaveText([
      "Look at the polarity of each source, or at its arrow.",
    ]);
    expect(await auditPage(page), "an answered question in a replay").toEqual([]);
  }
});
