import type { Browser, Page } from "@playwright/test";
import { ARROWS, INK, NOTES, STROKES } from "./boardInk";

/** Paths and texts of the bare scene: as many as the board's figure of the same mesh has strokes and labels. */
export const SCENE = { paths: 1_000, texts: 200 };
const GRID = 24;

/** Konva alone: one layer of as many shapes as the room has, ink included, each a shape of its own. */
export async function barePage(
  browser: Browser,
  size: { readonly width: number; readonly height: number },
): Promise<Page> {
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
  await page.setContent('<div id="scene"></div>');
  // What runs this file names functions by a helper that a page does not have.
  await page.evaluate("globalThis.__name = (named) => named");
  // A package's script for pages without modules, which it shows to nobody who imports.
  await page.addScriptTag({ path: "node_modules/konva/konva.min.js" });
  const flat = (spots: readonly { readonly x: number; readonly y: number }[]) =>
    spots.flatMap(({ x, y }) => [x * GRID, y * GRID]);
  const ink = { strokes: STROKES.map(flat), arrows: ARROWS.map(flat), notes: flat(NOTES), broad: INK.highlighters };
  await page.evaluate(
    ({ paths, texts, strokes, arrows, notes, broad, width, height }) => {
      // biome-ignore lint/suspicious/noExplicitAny: the script's global has no type here
      const { Konva } = window as any;
      const stage = new Konva.Stage({ container: "scene", width, height, listening: false });
      const layer = new Konva.Layer({ listening: false, scaleX: 0.4, scaleY: 0.4 });
      const hand = { stroke: "#7a4522", lineCap: "round", lineJoin: "round", tension: 0.4 };
      strokes.forEach((points, i) => {
        layer.add(
          new Konva.Line({
            points,
            ...hand,
            ...(i < broad ? { strokeWidth: 16, opacity: 0.28 } : { strokeWidth: 2.6 }),
          }),
        );
      });
      for (let i = 0; i < paths; i++) {
        const [x, y] = [140 * (i % 14), 140 * (Math.floor(i / 14) % 10)];
        layer.add(new Konva.Path({ x, y, data: "M0 -9L54 -9L54 9L0 9Z", stroke: "#1d2530", strokeWidth: 2 }));
      }
      for (let i = 0; i < texts; i++) {
        const [x, y] = [140 * (i % 14), 140 * (Math.floor(i / 14) % 10)];
        layer.add(new Konva.Text({ x, y, text: "R12 3.3 kΩ", fontSize: 16, fill: "#1d2530" }));
      }
      for (const points of arrows) layer.add(new Konva.Arrow({ points, stroke: "#7a4522", strokeWidth: 2.4 }));
      for (let i = 0; i < notes.length; i += 2) {
        layer.add(
          new Konva.Text({ x: notes[i], y: notes[i + 1], text: "loop 3: R3 Ia", fontSize: 17, fill: "#7a4522" }),
        );
      }
      stage.add(layer);
      const move = (dx: number, dy: number) => layer.move({ x: dx, y: dy }) && layer.batchDraw();
      const zoom = (factor: number) => {
        const scale = layer.scaleX() * factor;
        layer.position({ x: 490 - (490 - layer.x()) * factor, y: 325 - (325 - layer.y()) * factor });
        layer.scale({ x: scale, y: scale });
        layer.batchDraw();
      };
      Object.assign(window, { scene: { move, zoom } });
    },
    { ...SCENE, ...ink, ...size },
  );
  return page;
}
