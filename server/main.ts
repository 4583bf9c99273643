import { fileURLToPath } from "node:url";
import { takeSecret } from "./access";
import { type AddendServer, startServer } from "./addendServer";
import { CheckThread } from "./check";
import { type DataFolder, OperatorError, openDatabase, takeDataFolder } from "./database";
import { DEMO_ROOM, demoInstructorLink, seedDemoRoom } from "./demoRoom";
import { PrismaDirectory, PrismaHistory } from "./history";
import { LIMITS } from "./limits";
import { CONSOLE_LOG } from "./log";
import { nextPages } from "./nextPages";
import { giveLinks, keepLinks } from "./oldRooms";
import { readSettings } from "./settings";
import { SolverPool } from "./solver";

const MIGRATIONS = fileURLToPath(new URL("../prisma/migrations", import.meta.url));

/** The whole server as one process: `tsx server/main.ts`, with `--dev` for pages that are compiled as they change. */
async function main(): Promise<void> {
  const { host, port, dataFolder } = readSettings(process.env);
  const data = await takeDataFolder(dataFolder);
  const client = await openDatabase(data.databaseUrl, MIGRATIONS);
  const store = new PrismaHistory(client);
  const directory = new PrismaDirectory(client);
  const secret = takeSecret(data.path);
  await seedDemoRoom(store, Date.now);
  const demoLink = await demoInstructorLink(directory, secret);
  const oldLinks = await giveLinks(directory, secret);
  const pages = await nextPages(process.argv.includes("--dev"), host, port);
  const solver = new SolverPool({
    rules: { slice: LIMITS.solverSlice, budget: LIMITS.solverBudget },
    log: CONSOLE_LOG,
  });
  const checker = new CheckThread({ log: CONSOLE_LOG, budget: LIMITS.solverBudget });
  checker.warmUp();
  const parts = { pages, store, directory, secret, solver, checker, limits: LIMITS, log: CONSOLE_LOG, now: Date.now };
  const server = await startServer(parts, host, port).catch((error) => {
    throw listenError(error, host, port);
  });
  const url = `http://${host === "0.0.0.0" || host === "::" ? "localhost" : host}:${server.port}`;
  process.stdout.write(
    [
      `Addend is at ${url}`,
      `Open ${url}/room/${DEMO_ROOM} in two browser windows and change a value in one of them.`,
      `The demo room's instructor comes in by ${url}${demoLink}`,
      ...(oldLinks.length === 0
        ? []
        : [`Older rooms have instructor's links now, kept in ${keepLinks(oldLinks, url, data.path)}`]),
      "",
    ].join("\n"),
  );
  stopOnSignals(server, data);
}

function listenError(error: NodeJS.ErrnoException, host: string, port: number): Error {
  switch (error.code) {
    case "EADDRINUSE":
      return new OperatorError(`Port ${port} is in use. Choose another: PORT=${port + 1} npm run up`);
    case "EACCES":
      return new OperatorError(`Port ${port} needs more rights than this user has. Choose one above 1023 with PORT.`);
    case "EADDRNOTAVAIL":
    case "ENOTFOUND":
      return new OperatorError(`HOST=${host} is no address of this machine.`);
    default:
      return error;
  }
}

/** Stores what is on its way and ends the process, with code 1 where something could not be stored. */
function stopOnSignals(server: AddendServer, data: DataFolder): void {
  let isStopping = false;
  const stop = async () => {
    if (isStopping) return;
    isStopping = true;
    const unstored = await server.stop();
    await data.release();
    if (unstored > 0) CONSOLE_LOG.warn(`${unstored} entries of the history could not be stored`);
    process.exit(unstored > 0 ? 1 : 0);
  };
  process.on("SIGTERM", stop);
  process.on("SIGINT", stop);
}

main().catch((error: unknown) => {
  console.error(error instanceof OperatorError ? error.message : error);
  process.exit(1);
});
