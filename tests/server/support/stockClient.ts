import { WebSocket } from "ws";
import { WebsocketProvider } from "y-websocket";
import * as Y from "yjs";
import { until } from "./until";

/** An unchanged y-websocket client with a document of its own. */
export type StockClient = {
  readonly doc: Y.Doc;
  readonly provider: WebsocketProvider;
  readonly board: Y.Map<unknown>;
  readonly leave: () => void;
};

export async function joinStock(url: string, room: string, params: Record<string, string> = {}): Promise<StockClient> {
  const client = connectStock(url, room, new Y.Doc(), params);
  await until(`the client is in step with ${room}`, () => client.provider.synced);
  return client;
}

export function connectStock(url: string, room: string, doc: Y.Doc, params: Record<string, string> = {}): StockClient {
  const provider = new WebsocketProvider(url, room, doc, {
    WebSocketPolyfill: WebSocket as unknown as typeof globalThis.WebSocket,
    disableBc: true,
    params,
  });
  return { doc, provider, board: doc.getMap("board"), leave: () => provider.destroy() };
}
