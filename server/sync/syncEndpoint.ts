import type { IncomingMessage } from "node:http";
import type { Duplex } from "node:stream";
import { WebSocketServer } from "ws";
import type { Identity } from "../access";
import type { Recorder } from "../history";
import { isOwnOrigin } from "../http/origin";
import type { Limits } from "../limits";
import type { Log } from "../log";
import { EntryRefused, Room, type RoomRegistry } from "../room";
import { CLOSE } from "./closeCode";
import { Connection } from "./connection";
import { refuseUpgrade } from "./refuseUpgrade";
import { type RoomAddress, readRoomAddress } from "./roomAddress";

export type SyncServices = {
  readonly limits: Limits;
  readonly identity: Identity;
  readonly registry: RoomRegistry;
  readonly recorder: Recorder;
  readonly log: Log;
};

type Upgrade = { readonly request: IncomingMessage; readonly socket: Duplex; readonly head: Buffer };

const STOPPING = "The server is stopping.";
const JOIN_FIRST = "Join this room by name first.";
const NOT_YOURS = "Only the learner whose try this is, and the instructor, see it.";

/** The WebSocket endpoint `/sync/<room>`; PROTOCOL.md says what is spoken there. */
export class SyncEndpoint {
  readonly #services: SyncServices;
  readonly #server: WebSocketServer;
  readonly #connections = new Map<Connection, Room>();
  readonly #heldUp = new Set<Connection>();
  readonly #heartbeat: NodeJS.Timeout;
  /** How many wait for their room to be loaded. */
  #entering = 0;
  #isStopping = false;

  constructor(services: SyncServices) {
    this.#services = services;
    // Far longer frames than are read are cut off by ws, which then gives no reason; those a little longer get ours.
    const maxPayload = services.limits.frameBytes * 2;
    this.#server = new WebSocketServer({ noServer: true, maxPayload, perMessageDeflate: false });
    this.#heartbeat = setInterval(() => {
      for (const connection of this.#connections.keys()) connection.beat();
    }, services.limits.heartbeat).unref();
  }

  /** Takes the upgrade request where it asks for a room, well or badly; false where it is somebody else's. */
  upgrade(request: IncomingMessage, socket: Duplex, head: Buffer): boolean {
    const address = readRoomAddress(request.url ?? "");
    if (address.kind === "other") return false;
    // Until ws takes the socket over, a reset would be an uncaught error.
    socket.on("error", () => socket.destroy());
    const { limits, identity } = this.#services;
    const participant = identity.read(request.headers.cookie);
    if (address.kind === "badName") refuseUpgrade(socket, 400, address.reason);
    else if (this.#isStopping) refuseUpgrade(socket, 503, STOPPING);
    else if (this.#connections.size + this.#entering >= limits.connections) {
      refuseUpgrade(socket, 503, `This server holds ${limits.connections} connections, all in use.`);
    } else if (!isOwnOrigin(request)) refuseUpgrade(socket, 403, "This request comes from a page of another site.");
    else if (participant === null) refuseUpgrade(socket, 401, JOIN_FIRST);
    else void this.#admit({ request, socket, head }, address, participant);
    return true;
  }

  /** Reads on from those who were held up while too much waited to be stored. */
  resume(): void {
    for (const connection of this.#heldUp) connection.resume();
    this.#heldUp.clear();
  }

  /** Tells everybody that the server stops, and takes nobody any more. */
  stop(): void {
    this.#isStopping = true;
    clearInterval(this.#heartbeat);
    for (const [connection, room] of this.#connections) {
      connection.close(CLOSE.stopping, "the server is stopping");
      // At once, so that the history still has it.
      this.#services.registry.leave(room, connection);
    }
    this.#server.close();
  }

  /** Lets a member of the room in; all others get to know by HTTP why not. */
  async #admit(upgrade: Upgrade, address: RoomAddress & { kind: "room" }, participant: string): Promise<void> {
    const { registry, limits } = this.#services;
    this.#entering++;
    const found = await registry.find(address.room).catch((error: unknown) => entryProblem(error));
    this.#entering--;
    const refusal = this.#isStopping ? ([503, STOPPING] as const) : refusalOf(found, participant);
    if (refusal !== null) {
      refuseUpgrade(upgrade.socket, ...refusal);
      return;
    }
    this.#server.handleUpgrade(upgrade.request, upgrade.socket, upgrade.head, (webSocket) => {
      const connection = new Connection(webSocket, participant, address.wantsAnswers, limits);
      if (found instanceof Room) this.#enter(connection, found);
      else this.#cantEnter(connection, address.room, found);
    });
  }

  #enter(connection: Connection, room: Room): void {
    const { registry } = this.#services;
    try {
      registry.enter(room, connection);
    } catch (error) {
      this.#cantEnter(connection, room.name, entryProblem(error));
      return;
    }
    this.#connections.set(connection, room);
    connection.start({
      onFrame: (frame) => this.#receive(connection, room, frame),
      onCaughtUp: () => room.catchUp(connection),
      onClose: () => {
        this.#connections.delete(connection);
        this.#heldUp.delete(connection);
        registry.leave(room, connection);
      },
    });
  }

  /** Says so behind the opened WebSocket, by a close code that makes the client come back. */
  #cantEnter(connection: Connection, room: string, problem: Error | null): void {
    const isRefused = problem instanceof EntryRefused;
    if (!isRefused) this.#services.log.warn(`room "${room}" can't be opened`, problem);
    connection.close(CLOSE.unavailable, isRefused ? problem.message : "the room can't be loaded at the moment");
  }

  #receive(connection: Connection, room: Room, frame: Uint8Array): void {
    const { recorder, log } = this.#services;
    try {
      const isToBeStored = room.receive(connection, frame);
      if (isToBeStored && recorder.isFull) this.#holdUp(connection);
    } catch (error) {
      // A defect of ours, which must not end the process for everybody else.
      log.warn(`a frame of ${frame.length} bytes in room "${room.name}" failed`, error);
      connection.close(CLOSE.defect, "the server failed on this message");
    }
  }

  #holdUp(connection: Connection): void {
    this.#heldUp.add(connection);
    connection.pause();
  }
}

/** Why a participant can't come into what was found under a room's name, as HTTP status and sentence; null where they can. */
function refusalOf(found: Room | Error | null, participant: string): readonly [number, string] | null {
  if (found === null) return [404, "There is no room with this code."];
  if (found instanceof Error || found.you(participant)) return null;
  if (found.isRemoved(participant)) return [403, "The instructor has removed you from this room."];
  return found.tryOf !== null ? [403, NOT_YOURS] : [401, JOIN_FIRST];
}

function entryProblem(error: unknown): Error {
  return error instanceof Error ? error : new Error(String(error));
}
