import type { Page, WebSocketRoute } from "@playwright/test";

/** A page's line to its room, which can be cut and mended, while the pages themselves stay within reach. */
export class Line {
  #isCut = false;
  readonly #routes = new Set<WebSocketRoute>();

  /** Takes effect for rooms that the page opens from then on. */
  static async of(page: Page): Promise<Line> {
    const line = new Line();
    await page.routeWebSocket(/\/sync\//, (route) => {
      if (line.#isCut) return route.close({ code: 1013 });
      line.#routes.add(route);
      route.connectToServer();
    });
    return line;
  }

  async cut(): Promise<void> {
    this.#isCut = true;
    for (const route of this.#routes) await route.close({ code: 1012 });
    this.#routes.clear();
  }

  mend(): void {
    this.#isCut = false;
  }
}
