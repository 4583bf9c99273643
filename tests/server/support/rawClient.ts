import { WebSocket } from "ws";
import { admit } from "./admit";
import { until } from "./until";

/** A bare socket, for frames that no stock client would send. */
export type RawClient = {
  readonly socket: WebSocket;
  readonly frames: Uint8Array[];
  /** Sends and resolves with the code and reason with which the server closes the connection. */
  readonly closedAfter: (frame: Uint8Array | string) => Promise<{ code: number; reason: string }>;
};

/** Connects with the cookie given, or as a learner who has just joined; `room` may end in a query. */
export async function joinRaw(url: string, room: string, cookie?: string): Promise<RawClient> {
  const headers = { cookie: cookie ?? (await admit(url, room.split("?", 1)[0] as string)).cookie };
  const socket = new WebSocket(`${url}/${room}`, { headers });
  const frames: Uint8Array[] = [];
  let close: { code: number; reason: string } | null = null;
  socket.on("message", (data) => frames.push(new Uint8Array(data as Buffer)));
  socket.on("close", (code, reason) => {
    close = { code, reason: reason.toString() };
  });
  socket.on("error", () => {});
  await new Promise((resolve) => socket.once("open", resolve));
  const closedAfter = async (frame: Uint8Array | string) => {
    if (socket.readyState === WebSocket.OPEN) socket.send(frame);
    await until("the server closes the connection", () => close !== null);
    return close as unknown as { code: number; reason: string };
  };
  return { socket, frames, closedAfter };
}

/** What the server answers to an upgrade request that it refuses. */
export function refusedUpgrade(
  address: string,
  headers: Record<string, string> = {},
): Promise<{ status: number; sentence: string }> {
  return new Promise((resolve, reject) => {
    const socket = new WebSocket(address, { headers });
    socket.on("open", () => reject(new Error(`${address} was not refused`)));
    socket.on("error", reject);
    socket.on("unexpected-response", (_request, response) => {
      let sentence = "";
      response.on("data", (bytes: Buffer) => {
        sentence += bytes.toString();
      });
      response.on("end", () => resolve({ status: response.statusCode ?? 0, sentence }));
    });
  });
}
