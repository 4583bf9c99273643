import { expect, type Locator, test } from "@playwright/test";
import { BoardPage } from "./boardPage";

// What lies on the board besides the drawing, where there is least room for it.

/** Where things are on the page, by what they are called here. */
async function boxesOf(things: Readonly<Record<string, Locator>>) {
  return Promise.all(
    Object.entries(things).map(async ([name, thing]) => {
      const box = await thing.boundingBox();
      if (!box) throw new Error(`${name} is not on the page`);
      return { name, ...box };
    }),
  );
}

/** Pairs of things that lie over one another. */
async function collisions(things: Readonly<Record<string, Locator>>): Promise<readonly string[]> {
  const boxes = await boxesOf(things);
  return boxes.flatMap((a, i) =>
    boxes.slice(i + 1).flatMap((b) => {
      const isClear = a.x + a.width <= b.x || b.x + b.width <= a.x || a.y + a.height <= b.y || b.y + b.height <= a.y;
      return isClear ? [] : [`${a.name} and ${b.name}`];
    }),
  );
}

// A phone's, a small phone's, and what the board has between margin and notes on a small screen.
for (const [width, height] of [
  [390, 844],
  [320, 640],
  [800, 700],
] as const) {
  test.describe(`${width} px wide`, () => {
    test.use({ viewport: { width, height } });

    test("caption, words for the view, the call and the words of ink lie beside one another", async ({ page }) => {
      const board = new BoardPage(page);
      await board.start("Ana", { kind: "example", id: "three-sources" });
      await board.expectValue("total", "Iy = 25 mA");
      await board.card("V1").click();
      await board.button("Ink").click();
      const things = {
        caption: page.getByText("Only V1 acts. I1 and V2 zeroed."),
        view: page.getByRole("group", { name: "View" }),
        call: board.button("Call everyone here"),
        kinds: page.getByRole("group", { name: "Kind of ink" }),
        colours: page.getByRole("group", { name: "Colour of the ink" }),
      };
      expect(await collisions(things)).toEqual([]);
      for (const { name, x, width: wide } of await boxesOf(things)) {
        expect(x, name).toBeGreaterThanOrEqual(0);
        expect(x + wide, name).toBeLessThanOrEqual(width);
      }
    });
  });
}

test.describe("on a phone", () => {
  test.use({ viewport: { width: 390, height: 844 } });

  test("a field at the foot of the board is whole, and lets the board's words stay where they are", async ({
    page,
  }) => {
    const board = new BoardPage(page);
    await board.start();
    const before = await board.button("Fit").boundingBox();
    await board.drag([3, 15], [8, 15]);
    const [field, sheet] = await boxesOf({
      field: page.locator("form").filter({ has: page.getByLabel("Value of the new part") }),
      sheet: board.sheet,
    });
    if (!field || !sheet) throw new Error("no field");
    expect(field.y + field.height).toBeLessThanOrEqual(sheet.y + sheet.height);
    expect(field.y).toBeGreaterThanOrEqual(sheet.y);
    expect(await board.button("Fit").boundingBox()).toEqual(before);
    await board.typeValue("1k");
  });

  test("what is chosen at the foot comes up above its slip, and the drawing goes back behind it", async ({ page }) => {
    const board = new BoardPage(page);
    await board.start("Ana", { kind: "example", id: "three-sources" });
    await board.expectValue("total", "Iy = 25 mA");
    const view = await board.sheet.getAttribute("data-view");
    await board.button("R2").click();
    await expect(page.getByTestId("slip")).toBeVisible();
    await expect(board.sheet).not.toHaveAttribute("data-view", view ?? "");
    await page.getByTestId("slip").getByRole("button", { name: "Close" }).click();
    await expect(board.sheet).toHaveAttribute("data-view", view ?? "");

    // Nothing lies on the circuit redrawn, and what is chosen while it is there is seen on the board.
    await board.card("V1").click();
    await board.button("R2").click();
    await board.button("Redrawn").click();
    await expect(page.getByTestId("slip")).toBeHidden();
    await board.button("R2").click();
    await expect(board.button("Back to the board")).toBeHidden();
    await expect(page.getByTestId("slip")).toBeVisible();
  });
});

test("on a desk all of a part's slip is seen, and so are the last words of the margin", async ({ page }) => {
  const board = new BoardPage(page);
  await board.start("Ana", { kind: "example", id: "three-sources" });
  await board.expectValue("total", "Iy = 25 mA");
  await board.button("R3").click();
  const slip = page.getByTestId("slip");
  await expect(slip).toBeVisible();
  expect(await slip.evaluate((element) => element.scrollHeight - element.clientHeight)).toBe(0);
  await expect(board.button("Keys…")).toBeInViewport({ ratio: 1 });
});
