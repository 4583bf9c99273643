import { mkdirSync, mkdtempSync, rmSync, utimesSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { afterEach, expect, it } from "vitest";
import { builtPagesProblem } from "./builtPages";

const root = mkdtempSync(join(tmpdir(), "addend-pages-"));
afterEach(() => rmSync(root, { recursive: true, force: true }));

/** A file that was last changed so many seconds after 1970. */
function write(path: string, time: number): void {
  const whole = join(root, path);
  mkdirSync(dirname(whole), { recursive: true });
  writeFileSync(whole, "");
  utimesSync(whole, time, time);
}

it("the bench says in one sentence that the pages are not built", () => {
  write("src/page/Room.tsx", 1000);
  expect(builtPagesProblem(root)).toBe(
    "The pages are not built, and the bench measures them: run `npm run build` first.",
  );
});

it("the bench names a source that is newer than the built pages, wherever it is, and takes those that are newer", () => {
  write("app/page.tsx", 1000);
  write("shared/solve/solve.ts", 3000);
  write("server/main.ts", 9000);
  write(".next/BUILD_ID", 2000);
  expect(builtPagesProblem(root)).toBe(
    "The built pages are older than shared/solve/solve.ts, and the bench measures them: run `npm run build` first.",
  );
  write(".next/BUILD_ID", 4000);
  expect(builtPagesProblem(root)).toBeNull();
});
