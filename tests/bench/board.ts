import { spawn } from "node:child_process";
import { existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type Browser, chromium, type Page } from "@playwright/test";
import { type Clip, entryId, writeClip } from "../../shared/board";
import { ms, table } from "./table";

const PORT = 20_000 + (process.pid % 20_000);
const ORIGIN = `http://127.0.0.1:${PORT}`;
const ROUNDS = 6;
const FRAMES = 60;
/** Paths and texts of the bare scene: as many as the board's figure of the same mesh has strokes and labels. */
const SCENE = { paths: 1_000, texts: 200 };

/**
 * Panning a board of 200 parts in headless Chromium, against a bare Konva scene with as many shapes, block by block in
 * turn. Frames are not held to the screen's rate, so that a frame's time is the work that it takes.
 */
export async function boardFrames(): Promise<string> {
  if (!existsSync(".next/BUILD_ID"))
    return "## Frames of the board\n\nNot taken: build the pages first (`npm run build`).";
  const data = mkdtempSync(join(tmpdir(), "addend-bench-"));
  const env = { ...process.env, PORT: String(PORT), HOST: "127.0.0.1", ADDEND_DATA: data };
  const server = spawn(process.execPath, ["--import", "tsx", "server/main.ts"], { env, stdio: "ignore" });
  const browser = await launch();
  try {
    await untilServed();
    return frameTable(await takeTurns(await boardPage(browser), await barePage(browser)));
  } finally {
    await browser.close();
    const ended = new Promise((resolve) => server.once("exit", resolve));
    server.kill("SIGTERM");
    await ended;
    rmSync(data, { recursive: true, force: true });
  }
}

function launch(): Promise<Browser> {
  const executablePath = [process.env.CHROMIUM_PATH, "/usr/bin/chromium"].find((path) => path && existsSync(path));
  const args = [
    "--disable-frame-rate-limit",
    "--disable-gpu-vsync",
    ...(process.getuid?.() === 0 ? ["--no-sandbox"] : []),
  ];
  return chromium.launch({ args, ...(executablePath ? { executablePath } : {}) });
}

async function untilServed(): Promise<void> {
  for (;;) {
    const response = await fetch(ORIGIN).catch(() => null);
    if (response?.ok) return;
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
}

/** A room with a mesh of 200 parts, pasted as a person would paste it. */
async function boardPage(browser: Browser): Promise<Page> {
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
  await page.goto(ORIGIN);
  const start = { data: { name: "Bench", from: { kind: "blank" } }, headers: { origin: ORIGIN } };
  const { room } = await (await page.request.post(`${ORIGIN}/api/rooms`, start)).json();
  await page.evaluate((text) => localStorage.setItem("addend.clip", text), writeClip(mesh(10)));
  await page.goto(`${ORIGIN}/room/${room}`);
  await page.getByRole("button", { name: "Paste", exact: true }).click();
  await page.getByRole("region", { name: "200 pieces" }).or(page.getByTestId("slip")).first().waitFor();
  await page.getByRole("application", { name: "Drawing board" }).focus();
  await page.keyboard.press("Escape");
  await page.keyboard.press("0");
  return page;
}

/** A square mesh of resistors, `size` squares a side, without wires: each part ends where the next begins. */
function mesh(size: number): Clip {
  const parts = Array.from({ length: size * size }, (_, i) => {
    const at = { x: 6 * (i % size), y: 6 * Math.floor(i / size) };
    const part = (name: string, to: { x: number; y: number }) =>
      ({ id: entryId(name), name, shape: "line", kind: "resistor", value: "1k", from: at, to }) as const;
    return [part(`H${i}`, { x: at.x + 6, y: at.y }), part(`U${i}`, { x: at.x, y: at.y + 6 })];
  });
  return { parts: parts.flat(), wires: [], references: [], nodeNames: [], wanted: [], groups: [] };
}

/** Konva alone: one layer of paths and texts. */
async function barePage(browser: Browser): Promise<Page> {
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
  await page.setContent('<div id="scene"></div>');
  // What runs this file names functions by a helper that a page does not have.
  await page.evaluate("globalThis.__name = (named) => named");
  // A package's script for pages without modules, which it shows to nobody who imports.
  await page.addScriptTag({ path: "node_modules/konva/konva.min.js" });
  await page.evaluate(({ paths, texts }) => {
    // biome-ignore lint/suspicious/noExplicitAny: the script's global has no type here
    const { Konva } = window as any;
    const stage = new Konva.Stage({ container: "scene", width: 980, height: 650, listening: false });
    const layer = new Konva.Layer({ listening: false, scaleX: 0.4, scaleY: 0.4 });
    for (let i = 0; i < paths; i++) {
      const [x, y] = [140 * (i % 14), 140 * (Math.floor(i / 14) % 10)];
      layer.add(new Konva.Path({ x, y, data: "M0 -9L54 -9L54 9L0 9Z", stroke: "#1d2530", strokeWidth: 2 }));
    }
    for (let i = 0; i < texts; i++) {
      const [x, y] = [140 * (i % 14), 140 * (Math.floor(i / 14) % 10)];
      layer.add(new Konva.Text({ x, y, text: "R12 3.3 kΩ", fontSize: 16, fill: "#1d2530" }));
    }
    stage.add(layer);
    Object.assign(window, { pan: (dx: number, dy: number) => layer.move({ x: dx, y: dy }) && layer.batchDraw() });
  }, SCENE);
  return page;
}

async function takeTurns(board: Page, bare: Page) {
  const times: Record<"board" | "bare", number[]> = { board: [], bare: [] };
  for (let round = 0; round < ROUNDS; round++) {
    for (const [name, page] of [["board", board] as const, ["bare", bare] as const]) {
      await page.bringToFront();
      const frames = await page.evaluate(panFrames, FRAMES);
      if (round > 0) times[name].push(...frames); // the first round warms both up
    }
  }
  return times;
}

/** Runs in the page: pans at every frame, and gives the time of each. */
async function panFrames(count: number): Promise<number[]> {
  const sheet = document.querySelector('[role="application"]');
  const { pan } = window as unknown as { readonly pan?: (dx: number, dy: number) => void };
  const times: number[] = [];
  let last = 0;
  for (let i = 0; i < count + 2; i++) {
    const now = await new Promise<number>((resolve) => requestAnimationFrame(resolve));
    if (i > 1) times.push(now - last);
    last = now;
    const [dx, dy] = i % 2 === 0 ? [7, 3] : [-6, -2];
    if (pan) pan(dx, dy);
    else sheet?.dispatchEvent(new WheelEvent("wheel", { deltaX: dx, deltaY: dy, bubbles: true, cancelable: true }));
  }
  return times;
}

function frameTable({ board, bare }: Record<"board" | "bare", number[]>): string {
  const median = (times: readonly number[]) =>
    [...times].sort((a, b) => a - b)[Math.floor(times.length / 2)] ?? Number.NaN;
  const ratio = (median(board) / median(bare)).toFixed(2);
  const rows = [
    ["a room with 200 parts", ms(median(board)), ratio],
    [`bare Konva, ${SCENE.paths} paths and ${SCENE.texts} texts`, ms(median(bare)), "1"],
  ];
  return `## Frames of the board\n\nPanning in headless Chromium, rendered in software: median time of a frame.\n\n${table(
    ["what is panned", "ms a frame", "ratio"],
    rows,
  )}`;
}
