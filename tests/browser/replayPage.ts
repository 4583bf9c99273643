import { expect, type Locator, type Page } from "@playwright/test";

/** A session that is played back, as a person uses its page. */
export class ReplayPage {
  readonly ruler: Locator;
  readonly clock: Locator;

  constructor(readonly page: Page) {
    this.ruler = page.getByRole("slider", { name: "Moment of the session" });
    this.clock = page.getByTestId("clock");
  }

  async open(code: string, rest = ""): Promise<void> {
    await this.page.goto(`/room/${code}/replay${rest}`);
    await expect(this.ruler).toBeVisible();
  }

  button(name: string): Locator {
    return this.page.getByRole("button", { name, exact: true });
  }

  /** The parts on the board that is shown, by name. */
  parts(): Locator {
    return this.page.getByRole("region", { name: "The circuit in words" }).getByRole("listitem").locator("b");
  }

  value(key: string): Locator {
    return this.page.getByTestId(`value-${key}`);
  }

  /** Sequence of the entry that is shown. */
  async at(): Promise<number> {
    return Number(await this.ruler.getAttribute("data-at"));
  }

  /** Opens one of the pages beside the board. */
  async beside(word: "Working" | "Chapters" | "Find"): Promise<void> {
    await this.button(word).click();
  }

  chapter(name: string | RegExp): Locator {
    return this.page.getByRole("region", { name: "Chapters" }).getByRole("button", { name });
  }

  /** Goes to a moment that is found among what somebody tried, and said and was told of that. */
  async find(name: string, words: RegExp): Promise<void> {
    await this.beside("Find");
    const find = this.page.getByRole("region", { name: "Find in the session" });
    await find.getByRole("combobox", { name: "By" }).selectOption(name);
    await find.getByRole("combobox", { name: "What" }).selectOption("tries");
    await find.getByRole("button", { name: words }).click();
    await this.beside("Working");
  }
}
