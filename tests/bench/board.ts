import { spawn } from "node:child_process";
import { existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type Browser, chromium, type Page } from "@playwright/test";
import * as Y from "yjs";
import { type Clip, entryId, writeClip } from "../../shared/board";
import { connectStock } from "../server/support/stockClient";
import { until } from "../server/support/until";
import { barePage, SCENE } from "./bareScene";
import { INK, placeInk } from "./boardInk";
import { ms, table } from "./table";

const PORT = 20_000 + (process.pid % 20_000);
const ORIGIN = `http://127.0.0.1:${PORT}`;
const ROUNDS = 6;
const FRAMES = 60;

/**
 * Panning and zooming a board of 200 parts with 3,000 points of ink in headless Chromium, against a bare Konva scene with as many shapes, block by block in
 * turn. Frames are not held to the screen's rate, so that a frame's time is the work that it takes.
 */
export async function boardFrames(): Promise<string> {
  const data = mkdtempSync(join(tmpdir(), "addend-bench-"));
  const env = { ...process.env, PORT: String(PORT), HOST: "127.0.0.1", ADDEND_DATA: data };
  const server = spawn(process.execPath, ["--import", "tsx", "server/main.ts"], { env, stdio: "ignore" });
  const browser = await launch();
  try {
    await untilServed();
    const board = await boardPage(browser);
    return frameTable(await takeTurns(board, await barePage(browser, await sheetSize(board))));
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

/** A room with a mesh of 200 parts, pasted as a person would paste it, and with ink that somebody else has drawn. */
async function boardPage(browser: Browser): Promise<Page> {
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
  await page.goto(ORIGIN);
  const start = { data: { name: "Bench", from: { kind: "blank" } }, headers: { origin: ORIGIN } };
  const { room } = await (await page.request.post(`${ORIGIN}/api/rooms`, start)).json();
  await page.evaluate((text) => localStorage.setItem("addend.clip", text), writeClip(mesh(10)));
  await page.goto(`${ORIGIN}/room/${room}`);
  await page.getByRole("button", { name: "Paste", exact: true }).click();
  await page.getByRole("region", { name: "200 pieces" }).or(page.getByTestId("slip")).first().waitFor();
  const cookies = (await page.context().cookies()).map(({ name, value }) => `${name}=${value}`).join("; ");
  const other = connectStock(`${ORIGIN.replace("http", "ws")}/sync`, room, new Y.Doc(), cookies);
  await until("the other client is in step", () => other.provider.synced);
  placeInk(other.doc);
  await page.getByTestId("ink-words").filter({ hasText: "arrow" }).waitFor();
  await page
    .locator("[data-mark] .katex")
    .nth(INK.notes - 1)
    .waitFor();
  other.leave();
  await page.getByRole("application", { name: "Drawing board" }).focus();
  await page.keyboard.press("Escape");
  await page.keyboard.press("0");
  return page;
}

/** The size of the board's pane, which is what the bare scene gets as well. */
function sheetSize(page: Page): Promise<{ readonly width: number; readonly height: number }> {
  const sheet = page.getByRole("application", { name: "Drawing board" });
  return sheet.evaluate(({ clientWidth: width, clientHeight: height }) => ({ width, height }));
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

type Gesture = "pan" | "zoom";
type Times = Record<"board" | "bare", Record<Gesture, number[]>>;

async function takeTurns(board: Page, bare: Page): Promise<Times> {
  const times: Times = { board: { pan: [], zoom: [] }, bare: { pan: [], zoom: [] } };
  for (let round = 0; round < ROUNDS; round++) {
    for (const [name, page] of [["board", board] as const, ["bare", bare] as const]) {
      for (const gesture of ["pan", "zoom"] as const) {
        await page.bringToFront();
        const frames = await page.evaluate(moveFrames, { count: FRAMES, gesture });
        if (round > 0) times[name][gesture].push(...frames); // the first round warms both up
      }
    }
  }
  return times;
}

/** Runs in the page: pans or zooms at every frame, and gives the time of each. Zooming goes in and comes out again. */
async function moveFrames({ count, gesture }: { count: number; gesture: Gesture }): Promise<number[]> {
  type Scene = { readonly move: (dx: number, dy: number) => void; readonly zoom: (factor: number) => void };
  const sheet = document.querySelector('[role="application"]');
  const { scene } = window as unknown as { readonly scene?: Scene };
  const times: number[] = [];
  const box = sheet?.getBoundingClientRect(); // once: asked at every frame it would have the page laid out early
  const middle = { clientX: (box?.left ?? 0) + 490, clientY: (box?.top ?? 0) + 325 };
  let last = 0;
  for (let i = 0; i < count + 2; i++) {
    const now = await new Promise<number>((resolve) => requestAnimationFrame(resolve));
    if (i > 1) times.push(now - last);
    last = now;
    const [dx, dy] = i % 2 === 0 ? [7, 3] : [-6, -2];
    const turn = i < (count + 2) / 2 ? -10 : 10;
    const wheel = gesture === "pan" ? { deltaX: dx, deltaY: dy } : { deltaY: turn, ctrlKey: true };
    if (scene && gesture === "pan") scene.move(dx, dy);
    else if (scene) scene.zoom(Math.exp(-turn / 400));
    else sheet?.dispatchEvent(new WheelEvent("wheel", { ...wheel, ...middle, bubbles: true, cancelable: true }));
  }
  return times;
}

/** What 60 frames a second leave for one of them, in ms. */
const FRAME = 1000 / 60;

function frameTable({ board, bare }: Times): string {
  const at = (times: readonly number[], share: number) =>
    [...times].sort((a, b) => a - b)[Math.floor(times.length * share)] ?? Number.NaN;
  const row = (what: string, times: Times["board"], gesture: Gesture) => [
    what,
    gesture === "pan" ? "panned" : "zoomed",
    ms(at(times[gesture], 0.5)),
    ms(at(times[gesture], 0.9)),
    (at(times[gesture], 0.5) / at(bare[gesture], 0.5)).toFixed(2),
  ];
  const shapes = SCENE.paths + SCENE.texts + INK.strokes + INK.arrows + INK.notes;
  const gestures = ["pan", "zoom"] as const;
  const isMet = gestures.every((gesture) => at(board[gesture], 0.5) <= Math.max(FRAME, at(bare[gesture], 0.5)));
  return [
    "## Frames of the board",
    `In headless Chromium, rendered in software: a room with 200 parts and ${INK.strokes * INK.pointsEach} points of ink (${INK.strokes} strokes, ${INK.highlighters} of them a highlighter's; ${INK.arrows} arrows, ${INK.notes} notes with mathematics), and a bare Konva scene of ${shapes} shapes on a canvas of the same size: ${SCENE.paths} paths, ${SCENE.texts} texts, the same ink as lines and arrows, and the notes as texts. The room's notes are HTML with mathematics, and its paper has a grid, which the bare scene has not.`,
    table(
      ["what", "is", "median, ms a frame", "9 of 10 within, ms", "ratio"],
      gestures.flatMap((gesture) => [row("the room", board, gesture), row("bare Konva", bare, gesture)]),
    ),
    `Wanted: ${ms(FRAME)} ms a frame, or no more than the bare scene takes. ${isMet ? "Met" : "Missed"}.`,
  ].join("\n\n");
}
