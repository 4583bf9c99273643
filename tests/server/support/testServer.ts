import { hashOfKey } from "../../../server/access";
import { type AddendServer, type Pages, startServer } from "../../../server/addendServer";
import { type Checker, CheckThread } from "../../../server/check";
import { type HistoryStore, MemoryDirectory, MemoryHistory, type RoomDirectory } from "../../../server/history";
import { LIMITS, type Limits } from "../../../server/limits";
import type { DeriveJob, Solver, SolverJob } from "../../../server/solver";

export type TestServer = AddendServer & {
  readonly store: HistoryStore;
  readonly directory: RoomDirectory;
  readonly warnings: string[];
  /** Address of the rooms, as a stock client takes it. */
  readonly url: string;
};

export type TestServerOptions = {
  readonly store?: HistoryStore;
  readonly directory?: RoomDirectory;
  readonly solver?: Solver;
  readonly checker?: Checker;
  readonly limits?: Partial<Limits>;
  readonly pages?: Partial<Pages>;
  /** The server's clock, in ms since 1970. */
  readonly now?: () => number;
};

/** What the cookies of all test servers are signed with. */
export const SECRET = new Uint8Array(32).fill(7);

/** The real server on a free port of the loopback, without pages; memory for a store unless one is given. */
export async function startTestServer(options: TestServerOptions = {}): Promise<TestServer> {
  const warnings: string[] = [];
  const store = options.store ?? new MemoryHistory();
  const directory = options.directory ?? (await seededDirectory());
  const log = { warn: (message: string) => warnings.push(message) };
  const server = await startServer(
    {
      pages: { handle: (_request, response) => void response.writeHead(404).end("no pages here"), ...options.pages },
      store,
      directory,
      secret: SECRET,
      solver: options.solver ?? new IdleSolver(),
      limits: { ...LIMITS, ...options.limits },
      checker: options.checker ?? new CheckThread({ log, budget: LIMITS.solverBudget }),
      log,
      now: options.now ?? Date.now,
    },
    "127.0.0.1",
    0,
  );
  return { ...server, store, directory, warnings, url: `ws://127.0.0.1:${server.port}/sync` };
}

/** Rooms that are there without anybody having made them, and the key of their instructor's link. */
const ROOMS = ["algebra", "geometry", "calculus"];
export const INSTRUCTOR_KEY = "AAAAAAAAAAAAAAAAAAAAAA";

async function seededDirectory(): Promise<RoomDirectory> {
  const directory = new MemoryDirectory();
  await seedRooms(directory);
  return directory;
}

export async function seedRooms(directory: RoomDirectory): Promise<void> {
  for (const room of ROOMS) await directory.create(room, hashOfKey(INSTRUCTOR_KEY));
}

/** A solver that outlives the servers that it is given to, since its threads take long to start. */
export function lasting(solver: Solver): Solver {
  return {
    request: (job) => solver.request(job),
    derive: (job) => solver.derive(job),
    forget: (room) => solver.forget(room),
    close: async () => {},
  };
}

/** Solves nothing, and keeps what it was asked, for tests that answer themselves. */
export class IdleSolver implements Solver {
  readonly jobs: SolverJob[] = [];
  readonly derivations: DeriveJob[] = [];

  request(job: SolverJob): void {
    this.jobs.push(job);
  }

  derive(job: DeriveJob): void {
    this.derivations.push(job);
  }

  forget(): void {}

  async close(): Promise<void> {}
}
