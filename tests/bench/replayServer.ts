import { LIMITS } from "../../server/limits";
import { openStores } from "../server/support/database";
import { startTestServer } from "../server/support/testServer";

/** Serves the rooms of the folder named by the first argument, without a solver, and tells its port. */
async function serve(folder: string): Promise<void> {
  const server = await startTestServer({
    ...(await openStores(folder)),
    // The bench asks as fast as it is answered.
    limits: { replayRate: { ...LIMITS.replayRate, burst: 1e6 } },
  });
  process.on("SIGTERM", async () => process.exit((await server.stop()) > 0 ? 1 : 0));
  process.stdout.write(`${server.port}\n`);
}

void serve(process.argv[2] ?? "");
