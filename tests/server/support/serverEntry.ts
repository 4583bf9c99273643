import { once } from "node:events";
import { takeDataFolder } from "../../../server/database";
import { SolverPool } from "../../../server/solver";
import { openStores } from "./database";
import { seedRooms, startTestServer } from "./testServer";

/**
 * The real server, loaded and waiting: it takes the folder that the first line it is given names, serves rooms from it,
 * tells its port, and stops on SIGTERM as the real one does.
 */
async function serve(isSolving: boolean): Promise<void> {
  const [line] = (await once(process.stdin, "data")) as [Buffer];
  const folder = line.toString().trim();
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

void serve(process.argv[2] === "solves");
