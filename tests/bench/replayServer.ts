import { join } from "node:path";
import { openDatabase } from "../../server/database";
import { PrismaDirectory, PrismaHistory } from "../../server/history";
import { LIMITS } from "../../server/limits";
import { MIGRATIONS } from "../server/support/database";
import { startTestServer } from "../server/support/testServer";

/** Serves the rooms of the folder named by the first argument, without a solver, and tells its port. */
async function serve(folder: string): Promise<void> {
  const client = await openDatabase(`file:${join(folder, "addend.db")}`, MIGRATIONS);
  const server = await startTestServer({
    store: new PrismaHistory(client),
    directory: new PrismaDirectory(client),
    // The bench asks as fast as it is answered.
    limits: { replayRate: { ...LIMITS.replayRate, burst: 1e6 } },
  });
  process.on("SIGTERM", async () => process.exit((await server.stop()) > 0 ? 1 : 0));
  process.stdout.write(`${server.port}\n`);
}

void serve(process.argv[2] ?? "");
