import { takeDataFolder } from "../../../server/database";
import { openHistory } from "./database";
import { startTestServer } from "./testServer";

/** Serves rooms from the folder named by the first argument, tells its port, and stops on SIGTERM as the real one does. */
async function serve(folder: string): Promise<void> {
  await takeDataFolder(folder);
  const server = await startTestServer({ store: await openHistory(folder) });
  process.on("SIGTERM", async () => process.exit((await server.stop()) > 0 ? 1 : 0));
  process.stdout.write(`${server.port}\n`);
}

void serve(process.argv[2] ?? "");
