import { expect, type Page, test } from "@playwright/test";
import { BoardPage } from "./boardPage";
import { auditPage } from "./pageAudit";

// The states of a room that accessibility.spec.ts does not go through, each at the size of a desk's screen and a phone's.

const SIZES = [
  { what: "on a desk", viewport: { width: 1440, height: 900 } },
  { what: "on a phone", viewport: { width: 390, height: 844 } },
] as const;

async function exampleRoom(page: Page): Promise<BoardPage> {
  const board = new BoardPage(page);
  await board.start("Ana", { kind: "example", id: "three-sources" });
  await board.expectValue("total", "Iy = 25 mA");
  return board;
}

for (const { what, viewport } of SIZES) {
  test.describe(what, () => {
    test.use({ viewport });

    test("the sheets that the margin opens, and a group's, have no fault that the audit knows", async ({ page }) => {
      const board = await exampleRoom(page);
      for (const word of ["More parts…", "Ask…", "Paper…", "Keys…", "Together …"]) {
        await board.button(word).click();
        await expect(page.getByRole("dialog")).toBeVisible();
        expect(await auditPage(page), word).toEqual([]);
        await board.closeSheet();
      }
    });

    test("a group's card, an addend with its values, and its redrawn circuit have none", async ({ page }) => {
      const board = await exampleRoom(page);
      await board.button("Together …").click();
      for (const source of ["V1", "I1"]) await page.getByRole("checkbox", { name: source }).check();
      await board.button("Make the card").click();
      await expect(board.card("I1+V1")).toBeVisible();
      expect(await auditPage(page), "a group").toEqual([]);
      await board.card("V1").click();
      await board.button("Voltages").click();
      await board.button("Currents").click();
      expect(await auditPage(page), "an addend").toEqual([]);
      await board.button("Redrawn").click();
      await expect(board.button("Back to the board")).toBeVisible();
      expect(await auditPage(page), "redrawn").toEqual([]);
    });

    test("ink has none, with any of its tools, nor has the field for words", async ({ page }) => {
      const board = await exampleRoom(page);
      for (const word of ["Ink", "Highlighter", "Arrow", "Eraser", "Move ink", "Words", "Point"]) {
        await board.button(word).click();
        expect(await auditPage(page), word).toEqual([]);
      }
      await board.button("Words").click();
      await board.click([8, 7]);
      const field = page.getByLabel("Words for the board");
      await field.fill("$\\frac{V_1}{R_1}$");
      await expect(page.getByTestId("preview").locator(".katex")).toBeVisible();
      expect(await auditPage(page), "field").toEqual([]);
      await field.press("Enter");
      await expect(page.getByRole("list", { name: "Words on the board" }).getByRole("listitem")).toBeVisible();
      expect(await auditPage(page), "note").toEqual([]);
    });

    test("dark paper and IEEE symbols have none, nor have the sheets on dark paper", async ({ page }) => {
      const board = await exampleRoom(page);
      await board.button("Paper…").click();
      await page.getByLabel("Dark paper").check();
      await page.getByLabel("IEEE 315").check();
      expect(await auditPage(page), "paper").toEqual([]);
      await board.closeSheet();
      await board.card("V2").click();
      expect(await auditPage(page), "addend").toEqual([]);
      for (const word of ["Files", "Class", "Invite"] as const) {
        await board.sheetOf(word);
        expect(await auditPage(page), word).toEqual([]);
        await board.closeSheet();
      }
      await board.button("More parts…").click();
      expect(await auditPage(page), "parts").toEqual([]);
    });
  });
}

test("the audit finds a landmark inside of another, and a name without the words that are seen", async ({ page }) => {
  await page.setContent(`<!doctype html><html lang="en"><title>Faulty</title><main><h1>Faulty</h1>
    <header>A head in the main part</header>
    <button aria-label="Take the card away" style="min-height:30px">Take away</button>
    <button aria-label="Take away the card" style="min-height:30px">Take away</button></main></html>`);
  expect(await auditPage(page)).toEqual([
    "<header> “A head in the main part” is a landmark inside of another",
    "<button> “Take away” is called “Take the card away”, without its words",
  ]);
});
