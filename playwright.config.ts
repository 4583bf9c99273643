import { existsSync, mkdtempSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { defineConfig } from "@playwright/test";

// The built pages are served by the real server, on a port and with a data folder of the run's own. A worker of the
// run reads this file too, and must find the port and folder that the first reading chose.
process.env.ADDEND_TEST_PORT ??= String(20_000 + (process.pid % 20_000));
process.env.ADDEND_TEST_DATA ??= mkdtempSync(join(tmpdir(), "addend-browser-"));
const { ADDEND_TEST_PORT: port, ADDEND_TEST_DATA: data } = process.env;

/** The browser to run: the one named by CHROMIUM_PATH, else the system's Chromium, else the one Playwright has installed. */
const chromium = [process.env.CHROMIUM_PATH, "/usr/bin/chromium"].find((path) => path && existsSync(path));
// Chromium refuses its sandbox to root, as which containers often run.
const args = process.getuid?.() === 0 ? ["--no-sandbox"] : [];

export default defineConfig({
  testDir: "tests/browser",
  outputDir: "test-results",
  fullyParallel: false,
  workers: 1,
  forbidOnly: Boolean(process.env.CI),
  reporter: process.env.CI ? "line" : "list",
  use: {
    baseURL: `http://127.0.0.1:${port}`,
    viewport: { width: 1440, height: 900 },
    launchOptions: { args, ...(chromium ? { executablePath: chromium } : {}) },
    screenshot: "only-on-failure",
  },
  webServer: {
    command: "node --import tsx server/main.ts",
    url: `http://127.0.0.1:${port}/`,
    env: { PORT: port, HOST: "127.0.0.1", ADDEND_DATA: data },
    reuseExistingServer: false,
    gracefulShutdown: { signal: "SIGTERM", timeout: 10_000 },
  },
});
