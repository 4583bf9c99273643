import { WebSocket } from "ws";
import { WebsocketProvider } from "y-websocket";
import * as Y from "yjs";
import type { JoinRoom, You } from "../../../shared/messages";
import { admit } from "./admit";
import { until } from "./until";

/** An unchanged y-websocket client with a document of its own, and the cookie of whoever it belongs to. */
export type StockClient = {
  readonly doc: Y.Doc;
  readonly provider: WebsocketProvider;
  readonly board: Y.Map<unknown>;
  readonly cookie: string;
  readonly leave: () => void;
};

type Joining = Partial<JoinRoom> & { readonly params?: Record<string, string> };

/** Joins by name as a newcomer, a learner unless something else is asked for, and waits until the client is in step. */
export async function joinStock(
  url: string,
  room: string,
  { params, ...asked }: Joining = {},
): Promise<StockClient & { readonly you: You }> {
  const { cookie, you } = await admit(url, room, asked);
  const client = connectStock(url, room, new Y.Doc(), cookie, params);
  await until(`the client is in step with ${room}`, () => client.provider.synced);
  return { ...client, you };
}

/** Connects somebody who has joined already. */
export function connectStock(
  url: string,
  room: string,
  doc: Y.Doc,
  cookie: string,
  params: Record<string, string> = {},
  onSocket: (socket: WebSocket) => void = () => {},
): StockClient {
  class WithCookie extends WebSocket {
    constructor(address: string, protocols: string[]) {
      super(address, protocols, { headers: { cookie } });
      onSocket(this);
    }
  }
  const provider = new WebsocketProvider(url, room, doc, {
    WebSocketPolyfill: WithCookie as unknown as typeof globalThis.WebSocket,
    disableBc: true,
    params,
  });
  const leave = () => {
    provider.destroy();
    // The provider leaves its awareness running, whose timer would keep a process that is done.
    provider.awareness.destroy();
  };
  return { doc, provider, board: doc.getMap("board"), cookie, leave };
}
