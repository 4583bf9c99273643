import type { Rate } from "./rateLimit";

/** Bounds that keep one client, room or circuit from harming the rest. Times in ms, sizes in bytes. */
export type Limits = {
  /** Longest frame that is read; an offline client's whole board comes in one. */
  readonly frameBytes: number;
  /** Largest board, as one encoded update. */
  readonly roomBytes: number;
  /** Longest awareness message, and how many awareness clients one connection may speak for in its life. */
  readonly awarenessBytes: number;
  readonly awarenessClients: number;
  /** Structs in one update, since joining hostile ones can take time quadratic in their number. */
  readonly updateStructs: number;
  /** Rooms in memory; each own try of a learner who is in it is one, too. */
  readonly rooms: number;
  readonly connections: number;
  readonly connectionsInRoom: number;
  /** Of one participant in one room: more tabs than anybody looks at, and too few to keep a class out. */
  readonly connectionsOfOne: number;
  /** Unsent bytes above which a client is sent no more cursors and answers, and above which it is let go. */
  readonly slowBytes: number;
  readonly behindBytes: number;
  /** Unstored bytes above which senders are no longer read. */
  readonly backlogBytes: number;
  /** Bytes that wait, in one room, for the store before they may be sent. */
  readonly heldBytes: number;
  /** How long an empty room stays in memory. */
  readonly idleTime: number;
  /** How often a client is asked whether it is still there. */
  readonly heartbeat: number;
  /** How long a circuit may hold up other rooms' answers, or their workings, and how long either may take at all. */
  readonly solverSlice: number;
  readonly solverBudget: number;
  /** Longest workings of one board, as JSON; well below `slowBytes`, since answers come behind them. */
  readonly workingsBytes: number;
  /** Requests of one connection (settings of the room), above which it is let go. */
  readonly requestRate: Rate;
  /** Values that one participant of a room tries: enough to mend a slip at once, too few to guess by. */
  readonly tryRate: Rate;
  /** What one participant asks, answers and says about tries: enough to read on without waiting. */
  readonly helpRate: Rate;
  /** Requests for a replay by one viewer: opening, reading on and scrubbing. */
  readonly replayRate: Rate;
  /** Links that a room's replay has at most, revoked ones included, and chapters that an instructor makes of it. */
  readonly replayLinks: number;
  readonly chapters: number;
  /** How often it is looked for rooms that are kept no longer. */
  readonly retentionInterval: number;
  /** Longest archive of a session that is imported, in bytes and entries, and how many tries there may be in it. */
  readonly archiveBytes: number;
  readonly archiveEntries: number;
  readonly archiveTries: number;
  /** How many moments of replays may wait to be solved, and how long one may take. */
  readonly momentQueue: number;
  readonly momentTime: number;
  /** Entries and bytes of one chunk of a replay; a single entry may be longer. */
  readonly chunkEntries: number;
  readonly chunkBytes: number;
  /** Rooms made, joins, and tries with a wrong key, from one network address. A class may sit behind one address. */
  readonly createRate: Rate;
  readonly joinRate: Rate;
  readonly wrongKeyRate: Rate;
  /** Learners' own tries that are begun from one network address: each is a copy of its room's board. */
  readonly beginTryRate: Rate;
  /** Longest circuit file that a room is made from. */
  readonly fileBytes: number;
  /** How long reading and laying out such a file may take. */
  readonly startTime: number;
  /** How long somebody who joins waits for the store, until they are told to try again. */
  readonly storePatience: number;
  /** How long a stop may wait for the store. */
  readonly stopTime: number;
};

const MB = 1024 * 1024;

export const LIMITS: Limits = {
  frameBytes: 8 * MB,
  roomBytes: 8 * MB,
  awarenessBytes: MB / 16,
  awarenessClients: 64,
  updateStructs: 50_000,
  rooms: 600,
  connections: 2000,
  connectionsInRoom: 200,
  connectionsOfOne: 16,
  slowBytes: MB,
  behindBytes: 20 * MB,
  backlogBytes: 16 * MB,
  heldBytes: 64 * MB,
  idleTime: 30_000,
  heartbeat: 15_000,
  solverSlice: 250,
  solverBudget: 2000,
  workingsBytes: MB / 2,
  requestRate: { burst: 60, perSecond: 20 },
  tryRate: { burst: 8, perSecond: 0.25 },
  helpRate: { burst: 15, perSecond: 0.5 },
  replayRate: { burst: 300, perSecond: 30 },
  replayLinks: 200,
  chapters: 500,
  retentionInterval: 10 * 60_000,
  archiveBytes: 64 * MB,
  archiveEntries: 250_000,
  archiveTries: 2000,
  momentQueue: 30,
  momentTime: 6000,
  chunkEntries: 4000,
  chunkBytes: MB / 2,
  createRate: { burst: 60, perSecond: 0.5 },
  joinRate: { burst: 300, perSecond: 5 },
  wrongKeyRate: { burst: 10, perSecond: 0.1 },
  beginTryRate: { burst: 200, perSecond: 1 },
  fileBytes: 5 * MB,
  startTime: 10_000,
  storePatience: 5000,
  stopTime: 10_000,
};
