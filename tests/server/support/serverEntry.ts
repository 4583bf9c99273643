import { takeDataFolder } from "../../../server/database";
import { SolverPool } from "../../../server/solver";
import { openStores } from "./database";
import { seedRooms, startTestServer } from "./testServer";

/** Serves rooms from the folder named by the first argument, tells its port, and stops on SIGTERM as the real one does. */
async function serve(folder: string, isSolving: boolean): Promise<void> {
  await takeDataFolder(folder);
  const { store, directory } = await openStores(folder);
  await seedRooms(directory);
  const rules = { slice: 250, budget: 10_000 };
  const server = await startTestServer({
    store,
    directory,
    ...(isSolving ? { solver: new SolverPool({ rules, log: console, lanes: 1 }) } : {}),
  });
  process.on("SIGTERM", async () => process.exit((await server.stop()) > 0 ? 1 : 0));
  process.stdout.write(`${server.port}\n`);
}

void serve(process.argv[2] ?? "", process.argv[3] === "solves");
