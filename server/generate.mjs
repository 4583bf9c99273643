// Generates the database client from prisma/schema.prisma where that hasn't been done for this schema and this version of
// Prisma. Plain Node, so that it runs before anything is compiled: `npm run generate`.
import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const ROOT = dirname(dirname(fileURLToPath(import.meta.url)));
const STAMP = join(ROOT, "server/generated/prisma/.generated-from");
const require = createRequire(import.meta.url);

/** Returns null where the client is there, otherwise what went wrong. */
export function generateClient() {
  const packageFile = require.resolve("prisma/package.json");
  const wanted = createHash("sha256")
    .update(readFileSync(join(ROOT, "prisma/schema.prisma")))
    .update(readFileSync(packageFile))
    .digest("hex");
  if (existsSync(STAMP) && readFileSync(STAMP, "utf8") === wanted) return null;

  const { bin } = JSON.parse(readFileSync(packageFile, "utf8"));
  const prisma = join(dirname(packageFile), bin.prisma ?? bin);
  const plain = run(prisma, {});
  // Prisma fetches its schema engine first, though generating doesn't use it. Where the network won't give it, any
  // existing file stands in for it.
  const result = plain.status === 0 ? plain : run(prisma, { PRISMA_SCHEMA_ENGINE_BINARY: process.execPath });
  if (result.status !== 0) return `${plain.stdout}${plain.stderr}`.trim();
  writeFileSync(STAMP, wanted);
  return null;
}

function run(prisma, env) {
  return spawnSync(process.execPath, [prisma, "generate"], {
    cwd: ROOT,
    env: { ...process.env, PRISMA_HIDE_UPDATE_MESSAGE: "1", ...env },
    encoding: "utf8",
  });
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const problem = generateClient();
  if (problem !== null) {
    console.error(`The database client could not be generated:\n${problem}`);
    process.exit(1);
  }
}
