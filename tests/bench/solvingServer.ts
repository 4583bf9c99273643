import { takeDataFolder } from "../../server/database";
import { LIMITS } from "../../server/limits";
import { SolverPool } from "../../server/solver";
import { openHistory } from "../server/support/database";
import { startTestServer } from "../server/support/testServer";

// The real server with its real database and solver threads, without pages: the bench starts it as a process.

const [folder = ""] = process.argv.slice(2);
await takeDataFolder(folder);
const rules = { slice: LIMITS.solverSlice, budget: LIMITS.solverBudget };
const solver = new SolverPool({ rules, log: { warn: () => {} } });
const server = await startTestServer({ store: await openHistory(folder), solver });
process.on("SIGTERM", async () => process.exit((await server.stop()) > 0 ? 1 : 0));
process.stdout.write(`${server.port}\n`);
