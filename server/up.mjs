// `npm run up`: from a clean checkout to a served board. Plain Node, since nothing may be installed yet. Each step is
// passed over where its outcome is there already.
import { spawn } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, readdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { createServer } from "node:net";
import { join } from "node:path";
import { fail, installPackages, ROOT, run } from "./install.mjs";

// Nothing about whoever runs this goes anywhere.
process.env.NEXT_TELEMETRY_DISABLED = "1";

const OLDEST_NODE = [20, 9];
/** What the built pages depend on. */
const PAGE_SOURCES = ["app", "src", "shared", "next.config.ts", "package.json", "package-lock.json", "tsconfig.json"];
const BUILD_STAMP = join(ROOT, ".next/built-from");

function checkNode() {
  const [major = 0, minor = 0] = process.versions.node.split(".").map(Number);
  const [oldestMajor, oldestMinor] = OLDEST_NODE;
  if (major > oldestMajor || (major === oldestMajor && minor >= oldestMinor)) return;
  fail(`Addend needs Node ${OLDEST_NODE.join(".")} or newer; this is ${process.versions.node}.`);
}

/** Finds out early, since building takes a while; what else is wrong with the address, the server says. */
async function checkPort() {
  const port = Number(process.env.PORT || 3000);
  const host = process.env.HOST || "127.0.0.1";
  const problem = await new Promise((resolve) => {
    const probe = createServer();
    probe.once("error", resolve);
    probe.listen(port, host, () => probe.close(() => resolve(null)));
  }).catch((error) => error);
  if (problem?.code === "EADDRINUSE") fail(`Port ${port} is in use. Choose another: PORT=${port + 1} npm run up`);
}

/** Contents of all files that the pages are built from. */
function sourcesHash() {
  const hash = createHash("sha256");
  const add = (path) => {
    if (!existsSync(path)) return;
    if (statSync(path).isDirectory()) {
      for (const name of readdirSync(path).sort()) add(join(path, name));
    } else {
      hash.update(path.slice(ROOT.length)).update("\0").update(readFileSync(path));
    }
  };
  for (const source of PAGE_SOURCES) add(join(ROOT, source));
  return hash.digest("hex");
}

function buildPages() {
  const sources = sourcesHash();
  if (existsSync(BUILD_STAMP) && readFileSync(BUILD_STAMP, "utf8") === sources) return;
  run("Building the pages", process.execPath, ["node_modules/next/dist/bin/next", "build"]);
  writeFileSync(BUILD_STAMP, sources);
}

function serve() {
  const server = spawn(process.execPath, ["--import", "tsx", "server/main.ts"], { cwd: ROOT, stdio: "inherit" });
  // The terminal's Ctrl-C reaches both; a signal sent to this process alone is handed on.
  process.on("SIGINT", () => {});
  process.on("SIGTERM", () => server.kill("SIGTERM"));
  server.on("exit", (code, signal) => process.exit(code ?? (signal === "SIGINT" ? 130 : 1)));
}

checkNode();
await checkPort();
installPackages();
const { generateClient } = await import("./generate.mjs");
const problem = generateClient();
if (problem !== null) fail(`The database client could not be generated:\n${problem}`);
buildPages();
serve();
