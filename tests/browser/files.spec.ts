import { expect, test } from "@playwright/test";
import { BoardPage } from "./boardPage";
import { saved } from "./saved";

function json(name: string, content: unknown) {
  return { name, mimeType: "application/json", buffer: Buffer.from(JSON.stringify(content)) };
}

const DIVIDER = {
  elements: [
    { id: "V1", kind: "voltage-source", nodes: ["a", "0"], value: "9 V" },
    { id: "R1", kind: "resistor", nodes: ["a", "b"], value: "1 kΩ" },
    { id: "R2", kind: "resistor", nodes: ["b", "0"], value: "2 kΩ" },
  ],
  reference: "0",
  wanted: [{ quantity: "voltage", name: "Vb", from: "b", to: "0" }],
};

const WITH_FAULT = {
  elements: [{ id: "R1", kind: "resistor", nodes: ["a", "b"], value: "5 mA" }],
};

test("a circuit that is saved as a file and brought into another room is the same there", async ({ page, browser }) => {
  const a = new BoardPage(page);
  await a.start("Ana", { kind: "example", id: "three-sources" });
  await a.expectValue("total", "Iy = 25 mA");
  const words = await a.words().allTextContents();
  const file = await saved(await a.sheetOf("Files"), "Save the circuit as a file");
  expect(file.name).toBe("A-workshop-board-with-three-feeds.json");
  await a.closeSheet();

  const b = new BoardPage(await browser.newPage({ baseURL: new URL(page.url()).origin }));
  await b.start("Ben");
  const sheet = await b.sheetOf("Files");
  const chosen = { name: file.name, mimeType: "application/json", buffer: file.bytes };
  await sheet.getByLabel("Bring in a circuit file").setInputFiles(chosen);
  await sheet.getByRole("button", { name: "Put it on the board" }).click();
  await expect(b.words()).toHaveText(words);
  await b.expectValue("total", "Iy = 25 mA");

  // On a board that is not empty it asks: beside what is there, then in its place, then back again.
  const again = await b.sheetOf("Files");
  await again.getByLabel("Bring in a circuit file").setInputFiles(json("divider.json", DIVIDER));
  await expect(again.getByText("divider.json holds 3 parts. The board has 8 parts already.")).toBeVisible();
  await again.getByRole("button", { name: "Add it beside them" }).click();
  await expect(b.words()).toHaveCount(11);
  await b.button("Undo").click();
  await expect(b.words()).toHaveText(words);
  const third = await b.sheetOf("Files");
  await third.getByLabel("Bring in a circuit file").setInputFiles(json("divider.json", DIVIDER));
  await third.getByRole("button", { name: "Replace what is on the board" }).click();
  await expect(b.words()).toHaveCount(3);
  // By hand: 9 V × 2/(1 + 2) = 6 V.
  await b.expectValue("total", "Vb = 6 V");
  await b.button("Undo").click();
  await expect(b.words()).toHaveText(words);
  await b.page.close();
});

test("a group of sources that is a card goes along in the file, and is a card where the file is brought in", async ({
  page,
  browser,
}) => {
  const a = new BoardPage(page);
  await a.start("Ana", { kind: "example", id: "three-sources" });
  await a.button("Together …").click();
  for (const source of ["V1", "I1"]) await page.getByRole("checkbox", { name: source }).check();
  await page.getByRole("dialog").locator("button[type=submit]").click();
  // By hand: 60 mA of V1 and −20 mA of I1.
  await expect(a.card("I1+V1")).toContainText("40 mA");
  const file = await saved(await a.sheetOf("Files"), "Save the circuit as a file");
  expect(JSON.parse(file.bytes.toString("utf8")).groups).toEqual([{ sources: ["V1", "I1"] }]);

  const b = new BoardPage(await browser.newPage({ baseURL: new URL(page.url()).origin }));
  await b.start("Ben");
  const sheet = await b.sheetOf("Files");
  const chosen = { name: file.name, mimeType: "application/json", buffer: file.bytes };
  await sheet.getByLabel("Bring in a circuit file").setInputFiles(chosen);
  await sheet.getByRole("button", { name: "Put it on the board" }).click();
  await expect(b.card("I1+V1")).toContainText("40 mA");
  await b.page.close();
});

test("a file that cannot be read is told with the place of each fault, and nothing is changed", async ({ page }) => {
  const a = new BoardPage(page);
  await a.start();
  const sheet = await a.sheetOf("Files");
  await sheet.getByLabel("Bring in a circuit file").setInputFiles(json("faulty.json", WITH_FAULT));
  await expect(sheet.getByText("faulty.json cannot be read:")).toBeVisible();
  await expect(sheet.getByRole("listitem")).toContainText(["elements[0].value"]);
  await expect(a.words()).toHaveCount(0);
});

test("a room is started with a file, also one that does not say where its parts stand", async ({ page }) => {
  const a = new BoardPage(page);
  await page.goto("/");
  await page.getByLabel("Your name, as the others see it").fill("Ana");
  await page.getByLabel("Start with a circuit file").setInputFiles(json("faulty.json", WITH_FAULT));
  await expect(page.getByText("elements[0].value")).toBeVisible();
  await page.getByLabel("Start with a circuit file").setInputFiles(json("divider.json", DIVIDER));
  await a.expectValue("total", "Vb = 6 V");
  await expect(a.words()).toHaveCount(3);
});

test("a part whose value cannot be read is named as left out of the file", async ({ page }) => {
  const a = new BoardPage(page);
  await a.start();
  await a.stretch([4, 4], [8, 4], "1k");
  await a.click([6, 4]);
  await page.getByLabel("Value", { exact: true }).fill("");
  await page.getByLabel("Value", { exact: true }).press("Enter");
  const sheet = await a.sheetOf("Files");
  await saved(sheet, "Save the circuit as a file");
  await expect(sheet.getByText("Left out of the file, since their values cannot be read: R1.")).toBeVisible();
});

test("the drawing of the chosen card is saved as SVG and PNG that need nothing of this page", async ({ page }) => {
  const a = new BoardPage(page);
  await a.start("Ana", { kind: "example", id: "three-sources" });
  await a.card("V1").click();
  const sheet = await a.sheetOf("Files");
  const svg = await saved(sheet, "Save as SVG");
  expect(svg.name).toBe("A-workshop-board-with-three-feeds-V1-alone.svg");
  const text = svg.bytes.toString("utf8");
  expect(text).toContain("<title>A workshop board with three feeds, V1 alone</title>");
  expect(text.match(/@font-face/g)?.length).toBeGreaterThanOrEqual(3);
  // No address but that of the namespace, and no variable of the page's.
  expect(text.match(/https?:[^"'\s)]*/g)).toEqual(["http://www.w3.org/2000/svg"]);
  expect(text).not.toMatch(/var\(|baseline-shift|class=/);
  expect(text).toContain("I1 zeroed");

  const png = await saved(sheet, "Save as PNG");
  expect(png.name).toBe("A-workshop-board-with-three-feeds-V1-alone.png");
  // Where the SVG has the name of R1, three pixels for each of its own, the PNG has letters.
  const [, x = "", y = ""] = /<text x="([-.\d]+)" y="([-.\d]+)"[^>]*><tspan>R1</.exec(text) ?? [];
  const [, left = "", top = ""] = /viewBox="([-.\d]+) ([-.\d]+) /.exec(text) ?? [];
  const name = { x: (Number(x) - Number(left) - 30) * 3, y: (Number(y) - Number(top) - 12) * 3 };
  const { corner, inked, lettered } = await page.evaluate(
    async ({ data, name }) => {
      const image = await createImageBitmap(await (await fetch(`data:image/png;base64,${data}`)).blob());
      const canvas = new OffscreenCanvas(image.width, image.height);
      const context = canvas.getContext("2d");
      context?.drawImage(image, 0, 0);
      const pixels = context?.getImageData(0, 0, image.width, image.height).data ?? new Uint8ClampedArray();
      let inked = 0;
      for (let i = 0; i < pixels.length; i += 4) if ((pixels[i] ?? 255) < 128) inked += 1;
      const letters = context?.getImageData(name.x, name.y, 180, 36).data ?? new Uint8ClampedArray();
      const dark = letters.filter((value, i) => i % 4 === 0 && value < 128).length;
      return { corner: [...pixels.slice(0, 4)], inked: inked / (pixels.length / 4), lettered: dark / (180 * 36) };
    },
    { data: png.bytes.toString("base64"), name },
  );
  expect(corner).toEqual([255, 255, 255, 255]);
  // Lines and letters: some of it, and by far not all.
  expect(inked).toBeGreaterThan(0.003);
  expect(inked).toBeLessThan(0.2);
  expect(lettered).toBeGreaterThan(0.05);
});
