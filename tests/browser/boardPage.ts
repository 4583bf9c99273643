import { expect, type Locator, type Page } from "@playwright/test";

type Grid = readonly [x: number, y: number];

/** What the server begins a room with. */
type RoomStart = { readonly kind: "blank" } | { readonly kind: "example"; readonly id: string };

/** The codes of rooms by what the tests call them. */
const CODES = new Map([["demo", "demo"]]);

/** A room's page as a person uses it: by grid points, words and names. */
export class BoardPage {
  readonly sheet: Locator;

  constructor(readonly page: Page) {
    this.sheet = page.getByRole("application", { name: "Drawing board" });
  }

  /**
   * Opens the room that the tests call by this name: whoever opens it first makes it, blank, and is its instructor;
   * others join it as learners. Gives its code.
   */
  async open(room: string, name = "Ana"): Promise<string> {
    const known = CODES.get(room);
    const code = known ?? (await this.start(name));
    CODES.set(room, code);
    if (known) await this.join(code, name);
    return code;
  }

  /** Makes a room and opens it as its instructor. Gives its code. */
  async start(name = "Ana", from: RoomStart = { kind: "blank" }): Promise<string> {
    const { room } = (await this.post("/api/rooms", { name, from })) as { readonly room: string };
    await this.enter(room);
    return room;
  }

  /** Joins the room of this code as a learner, and opens it. */
  async join(code: string, name: string): Promise<void> {
    await this.post(`/api/rooms/${code}/join`, { name });
    await this.enter(code);
  }

  /** Joins the room of this code as somebody who only looks, and opens it. */
  async observe(code: string, name: string): Promise<void> {
    await this.post(`/api/rooms/${code}/join`, { name, as: "observer" });
    await this.enter(code);
  }

  /** Opens the room of this code, which the page's person is in already. */
  async enter(code: string): Promise<void> {
    await this.page.goto(`/room/${code}`);
    await expect(this.page.getByText("Connected", { exact: true })).toBeVisible();
    await expect(this.sheet).toBeVisible();
  }

  private async post(path: string, data: object): Promise<unknown> {
    // Asked with the page's own cookies, as the page's forms would.
    if (this.page.url() === "about:blank") await this.page.goto("/");
    const origin = new URL(this.page.url()).origin;
    const response = await this.page.request.post(path, { data, headers: { origin } });
    expect(response.ok(), await response.text()).toBe(true);
    return response.json();
  }

  /** Where a grid point is on the screen. */
  async spot([x, y]: Grid): Promise<{ readonly x: number; readonly y: number }> {
    const box = await this.sheet.boundingBox();
    const view = await this.sheet.getAttribute("data-view");
    if (!box || !view) throw new Error("the board is not on the page");
    const [scale = 1, left = 0, top = 0] = view.split(" ").map(Number);
    return { x: box.x + left + x * 24 * scale, y: box.y + top + y * 24 * scale };
  }

  async drag(from: Grid, to: Grid): Promise<void> {
    const [start, end] = [await this.spot(from), await this.spot(to)];
    await this.page.mouse.move(start.x, start.y);
    await this.page.mouse.down();
    await this.page.mouse.move((start.x + end.x) / 2, (start.y + end.y) / 2);
    await this.page.mouse.move(end.x, end.y);
    await this.page.mouse.up();
  }

  /** Stretches from one grid point to another and types a value; nothing typed is a wire. */
  async stretch(from: Grid, to: Grid, value: string): Promise<void> {
    await this.drag(from, to);
    await this.typeValue(value);
  }

  async typeValue(value: string): Promise<void> {
    const field = this.page.getByLabel("Value of the new part");
    await field.fill(value);
    await field.press("Enter");
    await expect(field).toBeHidden();
  }

  async click(at: Grid): Promise<void> {
    const { x, y } = await this.spot(at);
    await this.page.mouse.click(x, y);
  }

  async tool(word: "Stretch" | "Wire" | "Select" | "Reference"): Promise<void> {
    await this.page.getByRole("button", { name: word, exact: true }).click();
  }

  /** Takes a part from the sheet of parts. */
  async part(name: string): Promise<void> {
    await this.button("More parts…").click();
    await this.page.getByRole("button", { name: new RegExp(`^${name}`) }).click();
  }

  /** Asks for a quantity of this kind, to be picked on the drawing. */
  async ask(what: string): Promise<void> {
    await this.button("Ask…").click();
    await this.button(what).click();
  }

  /** Moves the keyboard's ring to a grid point. The first arrow key shows it, wherever that is. */
  async ringTo([x, y]: Grid): Promise<void> {
    if (!(await this.sheet.getAttribute("data-ring"))) await this.page.keyboard.press("Control+ArrowRight");
    const ring = (await this.sheet.getAttribute("data-ring"))?.split(",").map(Number) ?? [];
    const [dx, dy] = [x - (ring[0] ?? 0), y - (ring[1] ?? 0)];
    for (let i = 0; i < Math.abs(dx); i += 1)
      await this.page.keyboard.press(dx > 0 ? "Control+ArrowRight" : "Control+ArrowLeft");
    for (let i = 0; i < Math.abs(dy); i += 1)
      await this.page.keyboard.press(dy > 0 ? "Control+ArrowDown" : "Control+ArrowUp");
    await expect(this.sheet).toHaveAttribute("data-ring", `${x},${y}`);
  }

  slip(name: string): Locator {
    return this.page.getByRole("region", { name, exact: true });
  }

  /** Opens a sheet by its word in the head. */
  async sheetOf(word: "Files" | "Class" | "Invite"): Promise<Locator> {
    await this.button(word).click();
    const sheet = this.page.getByRole("dialog", { name: word });
    await expect(sheet).toBeVisible();
    return sheet;
  }

  async closeSheet(): Promise<void> {
    await this.page.keyboard.press("Escape");
    await expect(this.page.getByRole("dialog")).toBeHidden();
  }

  button(name: string): Locator {
    return this.page.getByRole("button", { name, exact: true });
  }

  /** The card of a source alone (`V1`), or of all (`total`). */
  card(key: string): Locator {
    return this.page.locator(`[data-card="${key}"]`);
  }

  /** Waits until a card shows this value, name and mark included: `Ix′ = 1.5 mA`. */
  async expectValue(key: string, text: string): Promise<void> {
    await expect(this.card(key).getByTestId(`value-${key}`)).toHaveText(text);
  }

  /** Where a value is tried for the example's Iy on a card by its title (`V1 alone`); there while its answer is hidden. */
  tryField(title: string): Locator {
    return this.page.getByRole("textbox", { name: `Your value for Iy, ${title}`, exact: true });
  }

  /** By how many pixels something is wider than the page. */
  overflow(): Promise<number> {
    return this.page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
  }

  /** The circuit as the page tells it in words, a line a part. */
  words(): Locator {
    return this.page.getByRole("region", { name: "The circuit in words" }).getByRole("listitem");
  }
}
