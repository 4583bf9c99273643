import { expect } from "@playwright/test";
import * as Y from "yjs";
import { INK_SHADES } from "../../src/ink/inkColours";
import { test } from "./company";

const BROWN = INK_SHADES.brown.light;
const MOSS = INK_SHADES.moss.light;
const EXAMPLE = { kind: "example", id: "three-sources" } as const;

test("a line is seen by others while it is drawn, stays when it is done, and anybody who may draw rubs it out", async ({
  pair: { ana, ben },
}) => {
  await ana.take("Pen");
  await ana.draw(
    [
      [4, 4],
      [8, 4],
      [12, 6],
    ],
    false,
  );
  await ana.expectPaint([6, 4], BROWN);
  await ben.expectPaint([6, 4], BROWN);
  await expect(ben.inkWords).toHaveText("");
  await ana.page.mouse.up();
  for (const somebody of [ana, ben]) {
    await expect(somebody.inkWords).toHaveText("Ink: 1 pen line in brown.");
    await somebody.expectPaint([6, 4], BROWN);
  }
  await ben.take("Eraser");
  await ben.click([6, 4]);
  for (const somebody of [ana, ben]) {
    await expect(somebody.inkWords).toHaveText("");
    await somebody.expectPaint([6, 4], BROWN, false);
  }
  // It was Ben who rubbed it out, so it is Ben who can undo that.
  await ben.button("Undo").click();
  await expect(ana.inkWords).toHaveText("Ink: 1 pen line in brown.");
  // Ana's undo takes back what Ana did last, and nothing of Ben's.
  await ana.draw([
    [4, 8],
    [9, 8],
  ]);
  await expect(ben.inkWords).toHaveText("Ink: 2 pen lines in brown.");
  await ana.button("Undo").click();
  await expect(ben.inkWords).toHaveText("Ink: 1 pen line in brown.");
  await ben.expectPaint([6, 4], BROWN);
});

test("highlighter, arrow and colours reach the others; ink can be moved by two clicks; a reload brings all back", async ({
  pair: { ana, ben },
}) => {
  await ana.take("Highlighter");
  await ana.button("moss").click();
  await ana.draw([
    [4, 4],
    [9, 4],
  ]);
  await ana.take("Arrow");
  await ana.button("brown").click();
  await ana.click([4, 8]);
  await ana.click([9, 8]);
  await expect(ben.inkWords).toHaveText("Ink: 1 highlighted place in moss, 1 arrow in brown.");
  await ben.expectPaint([6, 4], MOSS);
  await ben.expectPaint([6, 8], BROWN);
  await ben.take("Move ink");
  await ben.click([6, 8]);
  await ben.click([6, 10]);
  await ana.expectPaint([6, 10], BROWN);
  await ana.expectPaint([6, 8], BROWN, false);
  await ana.page.reload();
  await ana.expectPaint([6, 10], BROWN);
});

test("words with mathematics are set for the others, in MathML too, and are changed and taken away by their text", async ({
  pair: { ana, ben },
}) => {
  await ana.write([5, 5], "so $\\frac{R_1}{2}$ at most");
  await expect(ben.notes).toHaveCount(1);
  await expect(ben.notes).toContainText("at most");
  await expect(ben.notes.locator("math mfrac")).toBeAttached();
  await expect(ben.notes.locator(".katex-html .mfrac")).toBeVisible();
  // Both change it by clicking on it; what is written last stands.
  await ben.take("Words");
  await ben.notes.click();
  await ben.page.getByLabel("Words for the board").fill("twice $R_2$");
  await ben.button("Change").click();
  await expect(ana.notes).toContainText("twice");
  await expect(ana.notes.locator("math msub")).toBeAttached();
  await ana.notes.click();
  await ana.page.getByLabel("Words for the board").fill("");
  await ana.page.getByLabel("Words for the board").press("Enter");
  await expect(ben.notes).toHaveCount(0);
});

test("ink made on an addend belongs to it, other ink is seen on every card, and the page says which", async ({
  somebody,
}) => {
  const ana = await somebody();
  await ana.start("Ana", EXAMPLE);
  await ana.take("Pen");
  await expect(ana.page.getByText("Marks made now are seen on every card.")).toBeVisible();
  await ana.draw([
    [2, -2],
    [6, -2],
  ]);
  await ana.card("I1").click();
  await expect(ana.page.getByText("Marks made now belong to I1 alone.")).toBeVisible();
  await ana.button("violet").click();
  await ana.draw([
    [8, -2],
    [12, -2],
  ]);
  await expect(ana.inkWords).toHaveText("Ink: 1 pen line in brown, 1 pen line in violet.");
  await ana.card("V1").click();
  await expect(ana.inkWords).toHaveText("Ink: 1 pen line in brown.");
  await ana.card("total").click();
  await expect(ana.inkWords).toHaveText("Ink: 1 pen line in brown.");
});

test("by keyboard alone an arrow is drawn, words are written, and a mark is rubbed out", async ({ somebody }) => {
  const ana = await somebody();
  await ana.start("Ana");
  const keys = async (...all: readonly string[]) => {
    for (const key of all) await ana.page.keyboard.press(key);
  };
  await ana.button("Ink").focus();
  await keys("Enter");
  await ana.button("Arrow").focus();
  await keys("Enter");
  await expect(ana.ink).toBeFocused();
  await keys("ArrowRight", "Enter", "Shift+ArrowRight", "Shift+ArrowRight", "Enter");
  await expect(ana.inkWords).toHaveText("Ink: 1 arrow in brown.");
  await ana.button("Words").focus();
  await keys("Enter", "ArrowDown", "Shift+ArrowDown", "Enter");
  await ana.page.keyboard.type("by keys");
  await keys("Enter");
  await expect(ana.notes).toHaveText(/by keys/);
  await expect(ana.ink).toBeFocused();
  await ana.button("Ink").focus();
  await keys("Enter");
  await ana.button("Eraser").focus();
  // The first arrow key shows the ring where the arrow began.
  await keys("Enter", "ArrowRight", "Enter");
  await expect(ana.inkWords).toHaveText("");
  await keys("Escape");
  await expect(ana.ink).toBeHidden();
});

test("pointing is seen by others where it happens, and leaves nothing", async ({ pair: { ana, ben } }) => {
  await ana.take("Point");
  const { x, y } = await ana.spot([8, 6]);
  await ana.page.mouse.move(x - 60, y);
  await ana.page.mouse.move(x, y, { steps: 5 });
  await expect(ben.page.locator('[data-cursor="Ana"] svg')).toBeVisible();
  // The first person of a room has the first colour, violet; the ring around the spot has a radius of 11 px.
  const ring = [8 + 11 / 24, 6] as const;
  await ana.page.mouse.move(x + 1, y);
  await ben.expectPaint(ring, INK_SHADES.violet.light);
  await ben.expectPaint(ring, INK_SHADES.violet.light, false);
  await expect(ben.inkWords).toHaveText("");
});

test("a finger draws on a phone, two fingers move the paper, and nothing scrolls sideways", async ({ somebody }) => {
  const [ana, ben] = [
    await somebody(),
    await somebody({ viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true }),
  ];
  const room = await ana.start("Ana");
  await ben.join(room, "Ben");
  await ben.button("Ink").tap();
  await ben.button("Pen").tap();
  await expect(ben.ink).toBeVisible();
  const devtools = await ben.page.context().newCDPSession(ben.page);
  const touch = (type: "touchStart" | "touchMove" | "touchEnd", ...at: readonly { x: number; y: number }[]) =>
    devtools.send("Input.dispatchTouchEvent", { type, touchPoints: at.map((point, id) => ({ ...point, id })) });
  const [from, to] = [await ben.spot([3, 8]), await ben.spot([9, 8])];
  await touch("touchStart", from);
  for (let i = 1; i <= 8; i += 1) await touch("touchMove", { x: from.x + ((to.x - from.x) * i) / 8, y: from.y });
  await touch("touchEnd");
  await expect(ana.inkWords).toHaveText("Ink: 1 pen line in brown.");
  await ana.expectPaint([6, 8], BROWN);

  const before = await ben.sheet.getAttribute("data-view");
  await touch("touchStart", from);
  await touch("touchStart", from, to);
  await touch("touchMove", { x: from.x, y: from.y + 60 }, { x: to.x, y: to.y + 60 });
  await touch("touchEnd");
  await expect(ben.sheet).not.toHaveAttribute("data-view", before ?? "");
  await expect(ben.inkWords).toHaveText("Ink: 1 pen line in brown.");
  expect(await ben.overflow()).toBe(0);
});

test("on a phone ink is rubbed out, taken back, and words with mathematics are written, all by taps", async ({
  somebody,
}) => {
  const ana = await somebody({
    viewport: { width: 390, height: 844 },
    hasTouch: true,
    isMobile: true,
  });
  await ana.start("Ana");
  const take = async (word: string) => {
    await ana.button(word).tap();
    // A tap's click comes a while after the finger is lifted, and the next touch may come before it.
    await expect(ana.button(word)).toHaveAttribute("aria-pressed", "true");
  };
  const tap = async (at: readonly [number, number]) => {
    const { x, y } = await ana.spot(at);
    await ana.page.touchscreen.tap(x, y);
  };
  await take("Ink");
  await take("Arrow");
  await tap([3, 6]);
  await tap([9, 6]);
  await expect(ana.inkWords).toHaveText("Ink: 1 arrow in brown.");
  await take("Eraser");
  await tap([6, 6]);
  await expect(ana.inkWords).toHaveText("");
  await ana.button("Undo").tap();
  await expect(ana.inkWords).toHaveText("Ink: 1 arrow in brown.");

  // The field opens under the finger, whose click must not go through to a button of it.
  await take("Words");
  const field = ana.page.getByLabel("Words for the board");
  for (const at of [
    [3, 3],
    [7, 10],
    [3, 12],
  ] as const) {
    await tap(at);
    await expect(field).toBeFocused();
    await field.tap();
    await expect(field).toBeFocused();
    const [box, pane] = await Promise.all([field.boundingBox(), ana.ink.boundingBox()]);
    expect(box && pane && box.x >= 0 && box.x + box.width <= 390 && box.y >= pane.y).toBe(true);
    await ana.button("Leave it").tap();
    await expect(field).toBeHidden();
  }
  await tap([3, 10]);
  await field.fill("$\\frac{V_1}{R_1}$ here");
  await expect(ana.page.getByTestId("preview").locator(".katex")).toBeVisible();
  await ana.button("Place").tap();
  await expect(ana.notes.locator("math mfrac")).toBeAttached();
  await ana.notes.tap();
  await expect(field).toHaveValue("$\\frac{V_1}{R_1}$ here");
  await ana.button("Leave it").tap();
  await ana.button("Undo").tap();
  await expect(ana.notes).toHaveCount(0);
  expect(await ana.overflow()).toBe(0);
});

test("a pen draws while the hand that holds it rests on the screen", async ({ somebody }) => {
  const ana = await somebody({ hasTouch: true });
  await ana.start("Ana");
  await ana.take("Pen");
  const devtools = await ana.page.context().newCDPSession(ana.page);
  const hand = (type: "touchStart" | "touchMove" | "touchEnd", ...at: readonly { x: number; y: number }[]) =>
    devtools.send("Input.dispatchTouchEvent", { type, touchPoints: at.map((point, id) => ({ ...point, id })) });
  const pen = (type: "mousePressed" | "mouseMoved" | "mouseReleased", { x, y }: { x: number; y: number }) =>
    devtools.send("Input.dispatchMouseEvent", {
      type,
      x,
      y,
      pointerType: "pen",
      button: "left",
      buttons: 1,
      clickCount: 1,
    });
  const [from, middle, to, palm] = [
    await ana.spot([4, 4]),
    await ana.spot([8, 4]),
    await ana.spot([12, 4]),
    await ana.spot([14, 12]),
  ];
  const view = await ana.sheet.getAttribute("data-view");
  await pen("mousePressed", from);
  await pen("mouseMoved", middle);
  await hand("touchStart", palm);
  await hand("touchMove", { x: palm.x + 30, y: palm.y + 20 });
  await pen("mouseMoved", to);
  await pen("mouseReleased", to);
  await hand("touchEnd");
  await expect(ana.inkWords).toHaveText("Ink: 1 pen line in brown.");
  await ana.expectPaint([6, 4], BROWN);
  await ana.expectPaint([11, 4], BROWN);
  await ana.expectPaint([13, 9], BROWN, false);
  await expect(ana.sheet).toHaveAttribute("data-view", view ?? "");
});

test("the other end of a pen rubs out, whatever its tip draws, and the tip draws again behind that", async ({
  somebody,
}) => {
  const ana = await somebody();
  await ana.start("Ana");
  await ana.take("Pen");
  for (const y of [4, 6, 8])
    await ana.draw([
      [4, y],
      [9, y],
    ]);
  await expect(ana.inkWords).toHaveText("Ink: 3 pen lines in brown.");
  // Wiped down over two of the three lines. No tool of the browser's has a pen's other end, so its events are made here.
  const places = await Promise.all(([3, 5, 7] as const).map((y) => ana.spot([6, y])));
  await ana.ink.evaluate((sheet, spots) => {
    const send = (type: string, { x, y }: { x: number; y: number }, button: number, buttons: number) => {
      const at = { clientX: x, clientY: y, bubbles: true, cancelable: true };
      sheet.dispatchEvent(new PointerEvent(type, { ...at, pointerId: 1, pointerType: "pen", button, buttons }));
    };
    const [from, middle, to] = spots as [(typeof spots)[0], (typeof spots)[0], (typeof spots)[0]];
    send("pointerdown", from, 5, 32);
    for (let i = 1; i <= 24; i += 1) send("pointermove", { x: from.x, y: from.y + ((to.y - from.y) * i) / 24 }, -1, 32);
    send("pointermove", middle, -1, 32);
    send("pointerup", to, 5, 0);
  }, places);
  await expect(ana.inkWords).toHaveText("Ink: 1 pen line in brown.");
  await ana.draw([
    [4, 10],
    [9, 10],
  ]);
  await expect(ana.inkWords).toHaveText("Ink: 2 pen lines in brown.");
});

test("malformed ink from another client is left out and told of, and does no harm", async ({
  pair: { ana, ben, room },
}) => {
  const errors: string[] = [];
  ana.page.on("pageerror", (error) => errors.push(error.message));
  await ana.take("Pen");
  await ana.draw([
    [4, 4],
    [9, 4],
  ]);
  await expect(ben.inkWords).toHaveText("Ink: 1 pen line in brown.");
  const raw = await ben.rawDocument(room);
  raw.doc.transact(() => {
    const ink = raw.doc.getMap("ink");
    ink.set("a", new Y.Map(Object.entries({ kind: "pen", colour: "ink", spots: "0,0 NaN,1" })));
    ink.set("b", 42);
    ink.set(
      "c",
      new Y.Map(
        Object.entries({
          kind: "note",
          colour: "ink",
          spots: "500,500",
          text: "<img src=x onerror=alert(1)> $\\href{javascript:alert(1)}{x} \\undefined$",
        }),
      ),
    );
    ink.set("d", new Y.Map(Object.entries({ kind: "pen", colour: "javascript", spots: "0,0 1,1" })));
  });
  await expect(ana.notes).toHaveCount(1);
  await expect(ana.notes).toContainText("<img src=x onerror=alert(1)>");
  await expect(ana.notes.locator("img, a")).toHaveCount(0);
  await expect(ana.page.getByRole("region", { name: "To mend" })).toContainText("A mark on this board cannot be read");
  await ana.draw([
    [4, 8],
    [9, 8],
  ]);
  await expect(ben.inkWords).toHaveText("Ink: 2 pen lines in brown.");
  expect(errors).toEqual([]);
  raw.close();
});

test("who may not draw cannot take a pen in hand, and can still point", async ({ somebody }) => {
  const [ana, ben] = [await somebody(), await somebody()];
  const room = await ana.start("Ana");
  await ben.observe(room, "Ben");
  await expect(ben.button("Ink")).toBeDisabled();
  await expect(ben.button("Words")).toBeDisabled();
  await ben.take("Point");
});
