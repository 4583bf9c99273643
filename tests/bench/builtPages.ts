import { readdirSync, statSync } from "node:fs";
import { join } from "node:path";

/** What the pages are built from. */
const SOURCES = ["app", "src", "shared", "next.config.ts"];
const BUILT = join(".next", "BUILD_ID");

/** Why the pages built in a folder are none to measure, as one sentence; null where they are newer than all their source. */
export function builtPagesProblem(root: string): string | null {
  const built = statSync(join(root, BUILT), { throwIfNoEntry: false });
  if (!built) return "The pages are not built, and the bench measures them: run `npm run build` first.";
  const newer = SOURCES.flatMap((source) => filesOf(join(root, source))).find(({ time }) => time > built.mtimeMs);
  if (!newer) return null;
  return `The built pages are older than ${newer.path.slice(root.length + 1)}, and the bench measures them: run \`npm run build\` first.`;
}

function filesOf(path: string): { readonly path: string; readonly time: number }[] {
  const found = statSync(path, { throwIfNoEntry: false });
  if (!found) return [];
  if (!found.isDirectory()) return [{ path, time: found.mtimeMs }];
  return readdirSync(path).flatMap((name) => filesOf(join(path, name)));
}
