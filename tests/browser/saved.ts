import { readFileSync } from "node:fs";
import type { Locator, Page } from "@playwright/test";

/** What saving by this button of a sheet gives: its name and its content. */
export async function saved(sheet: Locator, word: string): Promise<{ readonly name: string; readonly bytes: Buffer }> {
  const arriving = sheet.page().waitForEvent("download");
  await sheet.getByRole("button", { name: word }).click();
  const file = await arriving;
  return { name: file.suggestedFilename(), bytes: readFileSync(await file.path()) };
}

/** The colours of a PNG's pixels at some places, each as red, green and blue. */
export function pixelsOf(
  page: Page,
  png: Buffer,
  places: readonly { readonly x: number; readonly y: number }[],
): Promise<readonly (readonly number[])[]> {
  return page.evaluate(
    async ({ data, places }) => {
      const image = await createImageBitmap(await (await fetch(`data:image/png;base64,${data}`)).blob());
      const context = new OffscreenCanvas(image.width, image.height).getContext("2d");
      context?.drawImage(image, 0, 0);
      return places.map(({ x, y }) => [...(context?.getImageData(x, y, 1, 1).data ?? [])].slice(0, 3));
    },
    { data: png.toString("base64"), places },
  );
}
