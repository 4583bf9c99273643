import { expect, test } from "@playwright/test";
import { Somebody } from "./company";

/** The scale of somebody's view, and the point of the board in the middle of their pane, in tenths of a grid step. */
async function middleOf({ sheet }: Somebody): Promise<readonly number[]> {
  const box = await sheet.boundingBox();
  const [scale = 1, x = 0, y = 0] = ((await sheet.getAttribute("data-view")) ?? "").split(" ").map(Number);
  const tenths = (pixels: number) => Math.round((pixels / scale / 24) * 10);
  return [Math.round(scale * 100), tenths((box?.width ?? 0) / 2 - x), tenths((box?.height ?? 0) / 2 - y)];
}

const EXAMPLE = { kind: "example", id: "three-sources" } as const;

test("everybody is named in the head, with role, and goes from there when they leave", async ({ browser, baseURL }) => {
  const [ana, ben] = [await Somebody.in(browser, baseURL), await Somebody.in(browser, baseURL)];
  const room = await ana.start("Ana");
  await ben.join(room, "Ben");
  await expect(ana.here.getByRole("listitem")).toHaveText([/Ana \(you\)\s*instructor/, /Ben\s*learner/]);
  await expect(ben.here.getByRole("listitem")).toHaveText([/Ben \(you\)\s*learner/, /Ana\s*instructor/]);
  await ben.leave();
  await expect(ana.here.getByRole("listitem")).toHaveText([/Ana \(you\)/]);
  await ana.leave();
});

test("another's pointer carries their name and lies on the same point of the board at any zoom", async ({
  browser,
  baseURL,
}) => {
  const [ana, ben, cy] = [
    await Somebody.in(browser, baseURL),
    await Somebody.in(browser, baseURL, { viewport: { width: 1100, height: 760 } }),
    await Somebody.in(browser, baseURL, { reducedMotion: "reduce" }),
  ];
  const room = await ana.start("Ana", EXAMPLE);
  await ben.join(room, "Ben");
  await cy.join(room, "Cy");
  const { x, y } = await ana.spot([5, 2]);
  await ana.page.mouse.move(x, y);
  const expectThere = async (somebody: Somebody) => {
    await expect(somebody.page.locator('[data-cursor="Ana"] svg')).toBeVisible();
    await expect
      .poll(async () => (await somebody.cursorOf("Ana"))?.map((each) => Math.round(each * 10) / 10))
      .toEqual([5, 2]);
  };
  for (const somebody of [ben, cy]) await expectThere(somebody);
  await ben.button("Smaller").click();
  await ben.button("Smaller").click();
  await expectThere(ben);
  // Off the board the pointer is nowhere.
  await ana.page.mouse.move(400, 10);
  await expect(ben.page.locator('[data-cursor="Ana"] svg')).toBeHidden();
  for (const somebody of [ana, ben, cy]) await somebody.leave();
});

test("cards say who looks at them, and what others have chosen is outlined", async ({ browser, baseURL }) => {
  const [ana, ben] = [await Somebody.in(browser, baseURL), await Somebody.in(browser, baseURL)];
  const room = await ana.start("Ana Ruiz", EXAMPLE);
  await ben.join(room, "Ben");
  await expect(ana.card("total").getByText("Ben looks at this.")).toBeAttached();
  await ana.card("V1").click();
  await expect(ben.card("V1").getByTestId("lookers")).toContainText("AR");
  await expect(ben.card("V1").getByText("Ana Ruiz looks at this.")).toBeAttached();
  await expect(ben.card("total").getByTestId("lookers")).toBeHidden();

  await ben.card("V1").click();
  await ana.page.getByRole("region", { name: "The circuit in words" }).getByRole("button", { name: "R3" }).click();
  await expect(ben.page.locator('[data-chosen-by="Ana Ruiz"]')).toBeVisible();
  // Whoever looks at another card has another drawing before them.
  await ben.card("I1").click();
  await expect(ben.page.locator('[data-chosen-by="Ana Ruiz"]')).toBeHidden();
  await ana.leave();
  await ben.leave();
});

for (const reducedMotion of ["no-preference", "reduce"] as const) {
  test(`“come to me” brings everyone to the instructor's view, and there is a way back (motion: ${reducedMotion})`, async ({
    browser,
    baseURL,
  }) => {
    const [ana, ben] = [await Somebody.in(browser, baseURL), await Somebody.in(browser, baseURL, { reducedMotion })];
    const room = await ana.start("Ana", EXAMPLE);
    await ben.join(room, "Ben");
    await expect(ben.button("Call everyone here")).toBeHidden();
    await ben.card("V2").click();
    const before = await middleOf(ben);
    await ana.card("I1").click();
    await ana.button("Larger").click();
    await ana.button("Larger").click();
    await ana.button("Call everyone here").click();
    await expect(ben.page.getByText("Ana has called everyone to this view.")).toBeVisible();
    await expect(ben.card("I1")).toHaveAttribute("aria-pressed", "true");
    // Panes differ in height, so it is their middles that come to the same point, at the same scale.
    const wanted = await middleOf(ana);
    await expect.poll(() => middleOf(ben)).toEqual(wanted);

    await ben.button("Back to where I was").click();
    await expect(ben.card("V2")).toHaveAttribute("aria-pressed", "true");
    await expect.poll(() => middleOf(ben)).toEqual(before);
    await expect(ben.page.getByText("Ana has called everyone to this view.")).toBeHidden();
    await ana.leave();
    await ben.leave();
  });
}

test("on a phone who is here waits behind a small button", async ({ browser, baseURL }) => {
  const [ana, ben] = [
    await Somebody.in(browser, baseURL),
    await Somebody.in(browser, baseURL, { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true }),
  ];
  const room = await ana.start("Ana", EXAMPLE);
  await ben.join(room, "Ben");
  await expect(ben.here).toBeHidden();
  await ben.button("2 here").tap();
  const everyone = ben.page.getByRole("list", { name: "Everyone here" });
  await expect(everyone.getByRole("listitem")).toHaveText([
    /Ben \(you\), learner/,
    /Ana, instructor\s*looks at all sources/,
  ]);
  expect(await ben.page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth)).toBe(0);
  await ben.page.keyboard.press("Escape");
  await expect(everyone).toBeHidden();
  await ana.leave();
  await ben.leave();
});

test("on a small laptop the head is one row, with what is asked in it, however many are here", async ({
  browser,
  baseURL,
}) => {
  const viewport = { width: 1024, height: 768 };
  const [ana, ben, cy] = [
    await Somebody.in(browser, baseURL, { viewport }),
    await Somebody.in(browser, baseURL, { viewport }),
    await Somebody.in(browser, baseURL, { viewport }),
  ];
  const room = await ana.start("Ana", EXAMPLE);
  await ben.join(room, "Ben");
  await cy.join(room, "Cyrus of the long name");
  for (const each of [ana, ben, cy]) {
    await expect(each.button("3 here")).toBeVisible();
    await expect(each.page.getByRole("heading", { level: 1 })).toHaveText(/^Find Iy, the current/);
    const box = await each.page.getByRole("banner").boundingBox();
    expect(box?.height).toBeLessThan(70);
  }
  for (const each of [ana, ben, cy]) await each.leave();
});
