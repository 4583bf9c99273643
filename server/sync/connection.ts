import type { WebSocket } from "ws";
import type { Limits } from "../limits";
import type { Peer } from "../room";
import { CLOSE, type CloseCode, closeReason } from "./closeCode";
import { SIGN_OF_LIFE } from "./serverFrame";

/** How long a client has to answer a close frame, in ms, before its socket is destroyed. */
const CLOSE_PATIENCE = 2000;

export type ConnectionEvents = {
  readonly onFrame: (frame: Uint8Array) => void;
  readonly onClose: () => void;
  /** The client missed something that was only offered, and has caught up with the rest. */
  readonly onCaughtUp: () => void;
};

/** A client's socket, with bounds on what may wait in it. It reads nothing until it is started. */
export class Connection implements Peer {
  readonly participant: string;
  readonly wantsAnswers: boolean;
  readonly #socket: WebSocket;
  readonly #limits: Limits;
  #events: ConnectionEvents | null = null;
  #isAlive = true;
  #hasMissed = false;

  constructor(socket: WebSocket, participant: string, wantsAnswers: boolean, limits: Limits) {
    this.participant = participant;
    this.wantsAnswers = wantsAnswers;
    this.#socket = socket;
    this.#limits = limits;
    socket.pause();
    socket.on("pong", () => {
      this.#isAlive = true;
    });
    // Malformed WebSocket frames: ws closes the socket itself, with the code of RFC 6455 for it.
    socket.on("error", () => {});
    socket.on("close", () => this.#events?.onClose());
    socket.on("message", (data, isBinary) => this.#read(data as Buffer, isBinary));
  }

  get isOpen(): boolean {
    return this.#socket.readyState === this.#socket.OPEN;
  }

  start(events: ConnectionEvents): void {
    this.#events = events;
    this.#socket.resume();
    if (this.#socket.readyState === this.#socket.CLOSED) events.onClose();
  }

  /** Stops reading, so that a client that sends faster than can be stored is held up by its own network. */
  pause(): void {
    this.#socket.pause();
  }

  resume(): void {
    this.#socket.resume();
  }

  send(bytes: Uint8Array): void {
    if (!this.isOpen) return;
    // A close frame would wait behind all that is already stuck.
    if (this.#socket.bufferedAmount > this.#limits.behindBytes) this.#socket.terminate();
    else this.#socket.send(bytes, () => this.#sent());
  }

  offer(bytes: Uint8Array): void {
    if (this.#socket.bufferedAmount > this.#limits.slowBytes) this.#hasMissed = true;
    else this.send(bytes);
  }

  close(code: CloseCode, reason: string): void {
    this.#socket.close(code, closeReason(reason));
    // The answer to the close frame is to be read also where nothing else was.
    this.#socket.resume();
    // A client that doesn't answer the close frame, or whose socket is full, is not waited for.
    setTimeout(() => this.#socket.terminate(), CLOSE_PATIENCE).unref();
  }

  /** Asks whether the client is still there; ends the connection where the last question had no answer. */
  beat(): void {
    // A paused socket can't hear the answer.
    if (!this.#isAlive && !this.#socket.isPaused) this.#socket.terminate();
    this.#isAlive = false;
    if (!this.isOpen) return;
    this.#socket.ping();
    this.offer(SIGN_OF_LIFE);
  }

  #read(data: Buffer, isBinary: boolean): void {
    // Frames that were read before the close frame was sent still come.
    if (!this.isOpen) return;
    const { frameBytes } = this.#limits;
    if (!isBinary) this.close(CLOSE.textFrame, "a text frame came; this endpoint takes binary frames only");
    else if (data.length <= frameBytes) this.#events?.onFrame(data);
    else this.close(CLOSE.tooLarge, `a frame has at most ${frameBytes} bytes, this one has ${data.length}`);
  }

  #sent(): void {
    if (!this.#hasMissed || this.#socket.bufferedAmount > this.#limits.slowBytes / 2) return;
    this.#hasMissed = false;
    if (this.isOpen) this.#events?.onCaughtUp();
  }
}
