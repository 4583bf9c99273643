import { once } from "node:events";
import { takeDataFolder } from "../../../server/database";
import { openStores } from "./database";
import { seedRooms, startTestServer } from "./testServer";

/**
 * The real server, loaded and waiting: it takes the folder that the first line it is given names, and tells its port. So
 * that a test which kills many servers need not wait for each to be loaded.
 */
async function serve(): Promise<void> {
  const [line] = (await once(process.stdin, "data")) as [Buffer];
  const folder = line.toString().trim();
  await takeDataFolder(folder);
  const { store, directory } = await openStores(folder);
  await seedRooms(directory);
  const server = await startTestServer({ store, directory });
  process.stdout.write(`${server.port}\n`);
}

void serve();
