import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "@playwright/test";
import { BoardPage } from "./boardPage";

/** A server of this test's own, which it may kill, beside the one that the others share. */
const PORT = Number(process.env.ADDEND_TEST_PORT) + 1;
const ORIGIN = `http://127.0.0.1:${PORT}`;

async function serve(data: string): Promise<ChildProcess> {
  const env = { ...process.env, PORT: String(PORT), HOST: "127.0.0.1", ADDEND_DATA: data };
  const server = spawn(process.execPath, ["--import", "tsx", "server/main.ts"], { env, stdio: "ignore" });
  await expect(async () => expect((await fetch(`${ORIGIN}/health`)).ok).toBe(true)).toPass({ timeout: 60_000 });
  return server;
}

async function kill(server: ChildProcess): Promise<void> {
  server.kill("SIGKILL");
  await once(server, "exit");
}

test("what others had seen survives the death of the server amid edits, and pages go on by themselves", async ({
  browser,
}) => {
  test.setTimeout(180_000);
  const data = mkdtempSync(join(tmpdir(), "addend-killed-"));
  let server = await serve(data);
  const contexts = await Promise.all([1, 2, 3].map(() => browser.newContext({ baseURL: ORIGIN })));
  const boards = await Promise.all(contexts.map(async (context) => new BoardPage(await context.newPage())));
  const [ana, ben, late] = boards as [BoardPage, BoardPage, BoardPage];
  try {
    const room = await ana.start("Ana");
    await ben.join(room, "Ben");
    await ana.stretch([3, 12], [3, 6], "12 V");
    await ana.stretch([3, 6], [9, 6], "2k");
    await expect(ben.words()).toHaveCount(2);
    // In the middle of an edit: Ana's next part may or may not have been passed on when the server dies.
    await ana.drag([9, 6], [9, 12]);
    await ana.page.getByLabel("Value of the new part").fill("3k");
    await Promise.all([ana.page.getByLabel("Value of the new part").press("Enter"), kill(server)]);
    await expect(ben.page.getByText("Connected", { exact: true })).toBeHidden();

    server = await serve(data);
    // Somebody who has nothing kept sees all that had been passed on; what was not comes back from Ana's page.
    await late.join(room, "Cleo");
    for (const board of boards) {
      await expect(board.words()).toHaveCount(3, { timeout: 30_000 });
      await expect(board.page.getByText("Connected", { exact: true })).toBeVisible();
    }
    await ben.stretch([9, 12], [3, 12], "");
    await ben.tool("Reference");
    await ben.click([6, 12]);
    await expect(ana.words().first()).toHaveText("V1voltage source of 12 V, + at node a, − at node 0");
  } finally {
    await Promise.all(contexts.map((context) => context.close()));
    await kill(server);
    rmSync(data, { recursive: true, force: true });
  }
});
