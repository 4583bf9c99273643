import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join, relative, resolve } from "node:path";
import { describe, expect, it } from "vitest";

/** What each folder may import of the others; packages are the lint rule's business. */
const ALLOWED: Readonly<Record<string, readonly string[]>> = {
  app: ["app", "src", "shared"],
  src: ["src", "shared"],
  server: ["server", "shared", "prisma"],
  "shared/quantity": ["shared/quantity"],
  "shared/circuit": ["shared/circuit", "shared/quantity"],
  "shared/layout": ["shared/layout", "shared/circuit", "shared/quantity"],
  "shared/solve": ["shared/solve", "shared/circuit", "shared/quantity"],
  "shared/derive": ["shared/derive", "shared/solve", "shared/circuit", "shared/quantity"],
  "shared/check": ["shared/check", "shared/solve", "shared/circuit", "shared/quantity"],
  "shared/examples": ["shared/examples", "shared/circuit", "shared/quantity"],
  "shared/board": ["shared/board", "shared/solve", "shared/circuit", "shared/quantity"],
  "shared/replay": ["shared/replay", "shared/messages", "shared/board", "shared/quantity"],
  "shared/messages": [
    "shared/check",
    "shared/messages",
    "shared/board",
    "shared/derive",
    "shared/solve",
    "shared/circuit",
    "shared/quantity",
  ],
};
const GENERATED = "server/generated";

function sourceFiles(folder: string): string[] {
  return readdirSync(folder).flatMap((name) => {
    const path = join(folder, name);
    if (path === GENERATED) return [];
    if (statSync(path).isDirectory()) return sourceFiles(path);
    return /\.(ts|tsx|mjs)$/.test(name) ? [path] : [];
  });
}

/** Where the relative imports of a file lead, from the root of the project. */
function importsOf(path: string): string[] {
  const text = readFileSync(path, "utf8");
  const found = text.matchAll(/(?:from\s+|import\s*\(\s*|import\s+|new URL\(\s*)["'](\.[^"']+)["']/g);
  return [...found].map(([, target]) => relative(".", resolve(dirname(path), target as string)));
}

function isUnder(path: string, folder: string): boolean {
  return path === folder || path.startsWith(`${folder}/`);
}

describe("the folders", () => {
  it.each(Object.entries(ALLOWED))("%s imports only downward", (folder, allowed) => {
    const files = sourceFiles(folder);
    expect(files.length).toBeGreaterThan(0);
    const breaches = files.flatMap((file) =>
      importsOf(file)
        .filter((target) => !allowed.some((each) => isUnder(target, each)))
        .map((target) => `${file} imports ${target}`),
    );
    expect(breaches).toEqual([]);
  });

  it("has a rule for every folder of shared/", () => {
    const folders = readdirSync("shared").map((name) => `shared/${name}`);
    expect(folders.filter((folder) => ALLOWED[folder] === undefined)).toEqual([]);
  });
});

const BREACHES: readonly (readonly [path: string, text: string, rule: string])[] = [
  ["shared/solve/a.ts", 'import { a } from "../../server/room";\n\nexport { a };\n', "noRestrictedImports"],
  ["shared/quantity/b.ts", 'import { a } from "../circuit";\n\nexport { a };\n', "noRestrictedImports"],
  ["shared/circuit/c.ts", 'import { a } from "../solve";\n\nexport { a };\n', "noRestrictedImports"],
  ["shared/solve/d.ts", 'import * as Y from "yjs";\n\nexport { Y };\n', "noRestrictedImports"],
  ["shared/replay/l.ts", 'import * as Y from "yjs";\n\nexport { Y };\n', "noRestrictedImports"],
  ["shared/board/e.ts", 'import { readFileSync } from "node:fs";\n\nexport { readFileSync };\n', "noRestrictedImports"],
  ["server/room/f.ts", 'import { a } from "../../src/board";\n\nexport { a };\n', "noRestrictedImports"],
  ["server/room/g.ts", 'import { a } from "../generated/prisma/client";\n\nexport { a };\n', "noRestrictedImports"],
  ["src/board/h.ts", 'import { a } from "../../server/room";\n\nexport { a };\n', "noRestrictedImports"],
  ["app/i.ts", 'import { a } from "../prisma/x";\n\nexport { a };\n', "noRestrictedImports"],
  ["shared/solve/j.ts", "export const now = (): number => Date.now();\n", "noRestrictedGlobals"],
  ["shared/solve/k.ts", 'console.error("x");\n', "noConsole"],
];
const DOWNWARD = ["shared/solve/z.ts", 'import { a } from "../quantity";\n\nexport { a };\n'] as const;

/** The rules that the project's lint finds broken, by path, in a tree made for the purpose. */
function brokenRules(
  files: readonly (readonly [path: string, text: string, ...rest: string[]])[],
): Map<string, string[]> {
  const tree = mkdtempSync(join(tmpdir(), "addend-lint-"));
  try {
    const settings = JSON.parse(readFileSync("biome.json", "utf8"));
    writeFileSync(
      join(tree, "biome.json"),
      JSON.stringify({ ...settings, $schema: undefined, vcs: { enabled: false } }),
    );
    for (const [path, text] of files) {
      mkdirSync(join(tree, dirname(path)), { recursive: true });
      writeFileSync(join(tree, path), text);
    }
    const biome = resolve("node_modules/@biomejs/biome/bin/biome");
    const { stdout } = spawnSync(process.execPath, [biome, "lint", "--reporter=json", "--max-diagnostics=none"], {
      cwd: tree,
      encoding: "utf8",
    });
    const broken = new Map<string, string[]>();
    for (const { category, location } of JSON.parse(stdout).diagnostics) {
      const path = String(location.path.file ?? location.path);
      broken.set(path, [...(broken.get(path) ?? []), String(category).split("/").at(-1) ?? ""]);
    }
    return broken;
  } finally {
    rmSync(tree, { recursive: true });
  }
}

describe("the lint rule", () => {
  const broken = brokenRules([...BREACHES, DOWNWARD]);

  it.each(BREACHES)("refuses %s: %s", (path, _text, rule) => {
    expect(broken.get(path)).toEqual([rule]);
  });

  it("lets an import downward pass", () => expect(broken.get(DOWNWARD[0])).toBeUndefined());
});
