// `npm test`: installs what the tests need, the browser included, and runs every one of them. Plain Node, since nothing
// may be installed yet. The last line counts the tests: "N passed, N failed".
import { spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, relative } from "node:path";
import { installPackages, ROOT } from "../server/install.mjs";

// Nothing about whoever runs this goes anywhere.
process.env.NEXT_TELEMETRY_DISABLED = "1";

const results = mkdtempSync(join(tmpdir(), "addend-tests-"));
const failures = [];
/** Which tests failed, and how: told again at the end, where whoever has only the end of a long log finds it. */
const failedTests = [];
const MOST_OF_MESSAGE = 2000;
let passed = 0;
let failed = 0;

function run(what, command, args, environment = {}) {
  console.log(`\n— ${what}`);
  const { status } = spawnSync(command, args, { cwd: ROOT, stdio: "inherit", env: { ...process.env, ...environment } });
  if (status !== 0) failures.push(what);
  return status === 0;
}

function node(what, script, ...args) {
  return run(what, process.execPath, [join(ROOT, "node_modules", script), ...args]);
}

/** A Chromium of the system where playwright.config.ts looks for one, or one that a package manager or Playwright can bring. */
function installBrowser() {
  const known = [process.env.CHROMIUM_PATH, "/usr/bin/chromium"];
  if (known.some((path) => path && existsSync(path))) return true;
  const isDebianRoot = process.getuid?.() === 0 && existsSync("/usr/bin/apt-get");
  if (isDebianRoot) {
    const apt = (...args) =>
      spawnSync("apt-get", args, { stdio: "inherit", env: { ...process.env, DEBIAN_FRONTEND: "noninteractive" } });
    apt("update", "-qq");
    apt("install", "-y", "-qq", "--no-install-recommends", "chromium");
    if (existsSync("/usr/bin/chromium")) return true;
  }
  return node("Browser", "@playwright/test/cli.js", "install", "--with-deps", "chromium");
}

function countVitest() {
  const path = join(results, "vitest.json");
  if (!existsSync(path)) return;
  const { numPassedTests, numFailedTests, testResults } = JSON.parse(readFileSync(path, "utf8"));
  passed += numPassedTests;
  failed += numFailedTests;
  for (const { name, status, message, assertionResults } of testResults) {
    const ofFile = assertionResults.filter((test) => test.status === "failed");
    for (const { fullName, failureMessages } of ofFile) noteFailed(name, fullName, failureMessages.join("\n"));
    if (status === "failed" && ofFile.length === 0) noteFailed(name, "the file itself", message);
  }
}

function noteFailed(file, test, message) {
  failedTests.push(`${relative(ROOT, file)} › ${test}\n${message.slice(0, MOST_OF_MESSAGE).replaceAll(/^/gm, "    ")}`);
}

function countPlaywright() {
  const path = join(results, "playwright.json");
  if (!existsSync(path)) return;
  const { stats } = JSON.parse(readFileSync(path, "utf8"));
  passed += stats.expected;
  // A test that passed at the second try is a bug too.
  failed += stats.unexpected + stats.flaky;
}

function runAll() {
  installPackages();
  if (!run("Database client", process.execPath, ["server/generate.mjs"])) return;
  node("Lint", "@biomejs/biome/bin/biome", "check", ".");
  node("Types", "typescript/bin/tsc", "-p", ".");
  node(
    "Unit, property, published and server tests",
    "vitest/vitest.mjs",
    "run",
    "--reporter=default",
    "--reporter=json",
    `--outputFile.json=${join(results, "vitest.json")}`,
  );
  countVitest();
  if (!installBrowser()) return;
  if (!node("Pages", "next/dist/bin/next", "build")) return;
  run(
    "Tests in real browsers",
    process.execPath,
    [join(ROOT, "node_modules/@playwright/test/cli.js"), "test", "--reporter=list,json"],
    // The rooms of the run go with its results.
    { PLAYWRIGHT_JSON_OUTPUT_NAME: join(results, "playwright.json"), ADDEND_TEST_DATA: join(results, "data") },
  );
  countPlaywright();
}

runAll();
rmSync(results, { recursive: true, force: true });
for (const test of failedTests) console.error(`\n✗ ${test}`);
if (failures.length > 0) console.error(`\nFailed: ${failures.join("; ")}`);
console.log(`\n${passed} passed, ${failed} failed`);
process.exitCode = failures.length > 0 || failed > 0 || passed === 0 ? 1 : 0;
