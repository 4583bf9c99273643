import { existsSync, readdirSync, readFileSync, statSync } from "node:fs";
import { dirname, join, relative, resolve } from "node:path";
import { expect, it } from "vitest";

/** Files of a folder that a page may run. */
function filesOf(folder: string): string[] {
  return readdirSync(folder).flatMap((name) => {
    const path = join(folder, name);
    if (statSync(path).isDirectory()) return filesOf(path);
    return /\.tsx?$/.test(name) && !name.endsWith(".d.ts") ? [path] : [];
  });
}

/** What a file imports at run time: other files by their paths, packages by their names. Types are left out. */
function importsOf(path: string): string[] {
  const text = readFileSync(path, "utf8").replace(/(?:import|export)\s+type\s[^;]*;/g, "");
  const found = text.matchAll(/(?:from\s+|import\s*\(\s*|import\s+)["']([^"']+)["']/g);
  return [...found].map(([, target]) => fileOf(path, target as string));
}

function fileOf(from: string, target: string): string {
  if (!target.startsWith(".")) return target;
  const base = relative(".", resolve(dirname(from), target));
  const candidates = [base, `${base}.ts`, `${base}.tsx`, `${base}/index.ts`];
  return candidates.find((path) => existsSync(path) && statSync(path).isFile()) ?? base;
}

/** All that is reached from the pages, with the file that led there first. */
function reachedFromPages(): ReadonlyMap<string, string> {
  const reached = new Map<string, string>(["src", "app"].flatMap(filesOf).map((path) => [path, "a page"]));
  for (const [path] of reached) {
    if (!existsSync(path) || !/\.tsx?$/.test(path)) continue;
    for (const target of importsOf(path)) if (!reached.has(target)) reached.set(target, path);
  }
  return reached;
}

it("no page reaches the parser of what learners enter, nor its library, nor the judging", () => {
  const reached = reachedFromPages();
  expect(reached.has("shared/check/judgementText.ts")).toBe(true);
  const judging = [...reached].filter(
    ([path]) => path.startsWith("mathjs") || /^shared\/check\/(?:index|parse|readEntry|judge|evaluate)\.ts$/.test(path),
  );
  expect(judging).toEqual([]);
});
