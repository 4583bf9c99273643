import type { decoding } from "lib0";
import type { WebSocket } from "ws";
import * as Y from "yjs";
import {
  type Answers,
  type Call,
  type JoinRoom,
  MESSAGE_ANSWERS,
  MESSAGE_CALL,
  MESSAGE_NOTICE,
  MESSAGE_ROOM,
  MESSAGE_TRIES,
  MESSAGE_WORKINGS,
  type Notice,
  type RoomAction,
  type RoomState,
  readAnswers,
  readCall,
  readNotice,
  readRoomState,
  readTries,
  readWorkings,
  type StepsMessage,
  type Try,
  type TryAction,
  type TryReply,
  type Workings,
  writeRequest,
  type You,
} from "../../../shared/messages";
import { admit } from "./admit";
import { connectStock, type StockClient } from "./stockClient";
import { INSTRUCTOR_KEY } from "./testServer";
import { until } from "./until";

export const INSTRUCTOR = { name: "Prof. Hart", key: INSTRUCTOR_KEY };

/** What a page does: it hears all of the room's messages, asks for things, and repairs its board when it is refused. */
export class PageClient {
  readonly you: You;
  readonly cookie: string;
  /** Every frame that came, whole. */
  readonly frames: Uint8Array[] = [];
  readonly notices: Notice[] = [];
  readonly calls: Call[] = [];
  readonly answers: Answers[] = [];
  readonly workings: Workings[] = [];
  state: RoomState | null = null;
  /** The newest tries, as they came last. */
  tries: readonly Try[] = [];
  /** Zeroings and lines, as they came last. */
  steps: Pick<StepsMessage, "zeroings" | "lines"> = { zeroings: [], lines: [] };
  /** What was said to this page's own tries, by the ids of their requests. */
  readonly replies = new Map<number, TryReply>();
  /** Code of the last close frame, 0 before one came. */
  closed = 0;
  /** How often it threw its board away. */
  repairs = 0;
  #stock: StockClient;
  #requests = 0;
  readonly #url: string;
  readonly #room: string;

  constructor(url: string, room: string, { cookie, you }: { readonly cookie: string; readonly you: You }) {
    this.#url = url;
    this.#room = room;
    this.you = you;
    this.cookie = cookie;
    this.#stock = this.#connect();
  }

  get provider(): StockClient["provider"] {
    return this.#stock.provider;
  }

  get doc(): Y.Doc {
    return this.#stock.doc;
  }

  get board(): Y.Map<unknown> {
    return this.#stock.board;
  }

  /** Resolves once the page is in step and has been told of the room. */
  async joined(): Promise<this> {
    await until(`${this.you.name} is in step`, () => this.provider.synced && this.state !== null);
    return this;
  }

  /** Sends a request and gives its id. */
  ask(action: RoomAction): number {
    const id = ++this.#requests;
    this.provider.ws?.send(writeRequest({ id, ...action }) as Uint8Array<ArrayBuffer>);
    return id;
  }

  /** Sends bytes as they are. */
  send(frame: Uint8Array): void {
    this.provider.ws?.send(frame as Uint8Array<ArrayBuffer>);
  }

  /** Asks, and waits for the refusal. */
  async refusalOf(action: RoomAction): Promise<Notice> {
    const id = this.ask(action);
    const found = () => this.notices.find((notice) => notice.code === "requestRefused" && notice.id === id);
    await until(`the refusal of ${action.do}`, () => found() !== undefined);
    return found() as Notice;
  }

  /** Tries a value, and waits for what the server says to it. */
  tryValue(wanted: string, card: string, text: string): Promise<TryReply> {
    return this.replyTo({ do: "tryValue", wanted, card, text });
  }

  /** Asks something about tries, and waits for what the server says to it. */
  async replyTo(action: TryAction): Promise<TryReply> {
    const id = this.ask(action);
    await until(`the reply to ${JSON.stringify(action)}`, () => this.replies.has(id));
    return this.replies.get(id) as TryReply;
  }

  /** All that was sent since so many frames, as text. */
  sentSince(frames: number): string {
    return this.frames
      .slice(frames)
      .map((each) => new TextDecoder().decode(each))
      .join("\n");
  }

  leave(): void {
    this.#stock.leave();
  }

  #connect(): StockClient {
    const onSocket = (socket: WebSocket) => {
      socket.on("message", (data) => this.frames.push(new Uint8Array(data as Buffer)));
      socket.on("close", (code) => {
        this.closed = code;
      });
    };
    const client = connectStock(this.#url, this.#room, new Y.Doc(), this.cookie, { answers: "1" }, onSocket);
    const on = (type: number, take: (decoder: decoding.Decoder) => void) => {
      client.provider.messageHandlers[type] = (_encoder, decoder) => take(decoder);
    };
    on(MESSAGE_ANSWERS, (decoder) => this.answers.push(readAnswers(decoder)));
    on(MESSAGE_WORKINGS, (decoder) => this.workings.push(readWorkings(decoder)));
    on(MESSAGE_CALL, (decoder) => this.calls.push(readCall(decoder)));
    on(MESSAGE_ROOM, (decoder) => {
      this.state = readRoomState(decoder);
    });
    on(MESSAGE_TRIES, (decoder) => {
      const message = readTries(decoder);
      if (message.about === "room") this.tries = message.tries;
      else if (message.about === "steps") this.steps = message;
      else this.replies.set(message.id, message.reply);
    });
    on(MESSAGE_NOTICE, (decoder) => {
      const notice = readNotice(decoder);
      this.notices.push(notice);
      if (notice.code === "changeRefused") this.#repair(client);
    });
    return client;
  }

  #repair(refused: StockClient): void {
    // Several changes of one board may be refused before the page hears of the first.
    if (refused !== this.#stock) return;
    this.repairs++;
    refused.leave();
    this.#stock = this.#connect();
  }
}

/** Joins a room as a page does, a learner unless something else is asked for. */
export async function joinPage(url: string, room: string, asked: Partial<JoinRoom> = {}): Promise<PageClient> {
  return new PageClient(url, room, await admit(url, room, asked)).joined();
}
