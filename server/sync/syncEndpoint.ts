import type { IncomingMessage } from "node:http";
import type { Duplex } from "node:stream";
import { WebSocketServer } from "ws";
import type { Identity } from "../access";
import type { Recorder } from "../history";
import type { Limits } from "../limits";
import type { Log } from "../log";
import { EntryRefused, type Room, type RoomRegistry } from "../room";
import { CLOSE } from "./closeCode";
import { Connection } from "./connection";
import { refuseUpgrade } from "./refuseUpgrade";
import { readRoomAddress } from "./roomAddress";

export type SyncServices = {
  readonly limits: Limits;
  readonly identity: Identity;
  readonly registry: RoomRegistry;
  readonly recorder: Recorder;
  readonly log: Log;
};

/** The WebSocket endpoint `/sync/<room>`; PROTOCOL.md says what is spoken there. */
export class SyncEndpoint {
  readonly #services: SyncServices;
  readonly #server: WebSocketServer;
  /** Each with its room, null while that is being loaded. */
  readonly #connections = new Map<Connection, Room | null>();
  readonly #heldUp = new Set<Connection>();
  readonly #heartbeat: NodeJS.Timeout;
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
    if (address.kind === "badName") refuseUpgrade(socket, 400, address.reason);
    else if (this.#isStopping) refuseUpgrade(socket, 503, "The server is stopping.");
    else if (this.#connections.size >= this.#services.limits.connections) {
      refuseUpgrade(socket, 503, `This server holds ${this.#services.limits.connections} connections, all in use.`);
    } else {
      this.#server.handleUpgrade(request, socket, head, (webSocket) => {
        const { identity, limits } = this.#services;
        // Until every page joins by name, those who bring no cookie are guests.
        const participant = identity.read(request.headers.cookie) ?? "guest";
        void this.#enter(new Connection(webSocket, participant, address.wantsAnswers, limits), address.room);
      });
    }
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
      if (room) this.#services.registry.leave(room, connection);
    }
    this.#server.close();
  }

  async #enter(connection: Connection, name: string): Promise<void> {
    const { registry, log } = this.#services;
    this.#connections.set(connection, null);
    try {
      const room = await registry.open(name);
      registry.enter(room, connection);
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
    } catch (error) {
      this.#connections.delete(connection);
      if (!(error instanceof EntryRefused)) log.warn(`room "${name}" can't be opened`, error);
      const reason = error instanceof EntryRefused ? error.message : "the room can't be loaded at the moment";
      connection.close(CLOSE.unavailable, reason);
    }
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
