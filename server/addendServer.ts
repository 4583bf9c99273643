import { createServer, type IncomingMessage, type Server, type ServerResponse } from "node:http";
import type { AddressInfo, Socket } from "node:net";
import type { Duplex } from "node:stream";
import { Identity } from "./access";
import type { Checker } from "./check";
import { type HistoryStore, Recorder, type RoomDirectory } from "./history";
import { answerHealth } from "./http/health";
import { ReplayApi } from "./http/replayApi";
import { RoomsApi } from "./http/roomsApi";
import type { Limits } from "./limits";
import type { Log } from "./log";
import { RateLimits } from "./rateLimit";
import { RoomRegistry } from "./room";
import type { Solver } from "./solver";
import { SyncEndpoint } from "./sync";
import { refuseUpgrade } from "./sync/refuseUpgrade";

/** What serves the pages; the sync endpoint stands beside it. */
export type Pages = {
  readonly handle: (request: IncomingMessage, response: ServerResponse) => void;
  /** Upgrade requests that don't ask for a room. */
  readonly upgrade?: (request: IncomingMessage, socket: Duplex, head: Buffer) => void;
};

export type ServerParts = {
  readonly pages: Pages;
  readonly store: HistoryStore;
  readonly directory: RoomDirectory;
  /** What cookies are signed with. */
  readonly secret: Uint8Array;
  readonly solver: Solver;
  readonly checker: Checker;
  readonly limits: Limits;
  readonly log: Log;
  readonly now: () => number;
};

export type AddendServer = {
  /** Where it listens; the port is the one that was found where 0 was asked for. */
  readonly port: number;
  readonly rooms: RoomRegistry;
  /** Takes nothing new, stores what was taken, lets go of everything; resolves with how many entries could not be stored. */
  readonly stop: () => Promise<number>;
};

/** In ms. */
const CLOSE_PATIENCE = 1000;

/** Starts serving rooms and pages. Rejects where the port can't be listened on. Doesn't touch the process. */
export async function startServer(parts: ServerParts, host: string, port: number): Promise<AddendServer> {
  const { limits, store, directory, solver, checker, log, now } = parts;
  const identity = new Identity(parts.secret, now);
  const recorder = new Recorder(store, limits.backlogBytes, {
    onStore: (problem) => {
      log.warn(problem === null ? "changes are stored again" : `changes can't be stored (${problem})`);
      registry.notify(problem === null ? { code: "storingAgain" } : { code: "notStoring", reason: problem });
    },
    onDrained: () => sync.resume(),
  });
  const registry = new RoomRegistry({ ...parts, recorder });
  const sync = new SyncEndpoint({ limits, identity, registry, recorder, log });
  const creates = new RateLimits(limits.createRate);
  const api = new RoomsApi({ registry, directory, identity, limits, log, now, creates });
  const replayApi = new ReplayApi({ registry, directory, identity, limits, log, now, store, solver, creates });
  const http = createServer((request, response) => {
    const isAnswered =
      answerHealth(request, response) || replayApi.answer(request, response) || api.answer(request, response);
    if (!isAnswered) parts.pages.handle(request, response);
  });
  const sockets = openSockets(http);
  http.on("upgrade", (request, socket, head) => {
    if (sync.upgrade(request, socket, head)) return;
    if (parts.pages.upgrade) return parts.pages.upgrade(request, socket, head);
    refuseUpgrade(socket, 404, "WebSockets are spoken at /sync/<room> only.");
  });
  await new Promise<void>((resolve, reject) => {
    http.once("error", reject);
    http.listen(port, host, resolve);
  });

  const stop = async () => {
    sync.stop();
    const closed = new Promise((resolve) => http.close(resolve));
    const unstored = await recorder.close(limits.stopTime);
    // Clients have this long to answer their close frames; nobody's open socket keeps the server from stopping.
    const patience = setTimeout(() => {
      for (const socket of sockets) socket.destroy();
    }, CLOSE_PATIENCE);
    http.closeIdleConnections();
    await Promise.all([closed, solver.close(), checker.close(), replayApi.stop()]);
    clearTimeout(patience);
    registry.close();
    await store.close();
    return unstored;
  };
  return { port: (http.address() as AddressInfo).port, rooms: registry, stop };
}

/** The sockets that are open, whatever is spoken on them; http itself forgets those that were upgraded. */
function openSockets(http: Server): ReadonlySet<Socket> {
  const sockets = new Set<Socket>();
  http.on("connection", (socket) => {
    sockets.add(socket);
    socket.once("close", () => sockets.delete(socket));
  });
  return sockets;
}
