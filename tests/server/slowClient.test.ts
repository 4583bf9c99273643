import { connect, type Socket } from "node:net";
import { afterEach, expect, it, vi } from "vitest";
import { admit } from "./support/admit";
import { joinStock, type StockClient } from "./support/stockClient";
import { startTestServer, type TestServer } from "./support/testServer";
import { until } from "./support/until";

vi.setConfig({ testTimeout: 60_000 });

let server: TestServer;
const clients: StockClient[] = [];

afterEach(async () => {
  for (const client of clients.splice(0)) client.leave();
  await server.stop();
});

/** Opens a WebSocket and never reads a byte from it after that. */
async function joinDeaf(room: string): Promise<Socket> {
  const { cookie } = await admit(server.url, room);
  const socket = connect(server.port, "127.0.0.1");
  socket.on("error", () => {});
  const key = Buffer.alloc(16).toString("base64");
  const head = [
    `GET /sync/${room} HTTP/1.1`,
    "Host: x",
    "Upgrade: websocket",
    "Connection: Upgrade",
    `Sec-WebSocket-Key: ${key}`,
    "Sec-WebSocket-Version: 13",
    `Cookie: ${cookie}`,
  ];
  socket.write(`${head.join("\r\n")}\r\n\r\n`);
  await new Promise((resolve) => socket.once("readable", resolve));
  return socket;
}

it("a client that reads nothing is cut off once too much waits for it, and the others go on", async () => {
  const behindBytes = 1024 * 1024;
  server = await startTestServer({ limits: { behindBytes, slowBytes: behindBytes / 4, idleTime: 5 } });
  const [ann, bob] = [await joinStock(server.url, "algebra"), await joinStock(server.url, "algebra")];
  clients.push(ann, bob);
  const deaf = await joinDeaf("algebra");
  let isCut = false;
  deaf.on("close", () => {
    isCut = true;
  });
  // The system's own buffers take several MB before anything waits in the server.
  for (let turn = 0; turn < 60; turn++) {
    ann.board.set("note", String(turn % 10).repeat(500_000));
    await until(`bob sees turn ${turn}`, () => bob.board.get("note") === ann.board.get("note"));
  }
  // Reading what was in the system's buffers, it comes to the end of the connection and not to a close frame.
  deaf.resume();
  await until("the deaf client is cut off", () => isCut);
  expect(deaf.bytesRead).toBeLessThan(59 * 500_000);
  for (const client of clients.splice(0)) client.leave();
  await until("nobody is left in the room", () => server.rooms.size === 0);
});

it("a client that doesn't answer is taken for gone", async () => {
  server = await startTestServer({ limits: { heartbeat: 20, idleTime: 5 } });
  const deaf = await joinDeaf("algebra");
  deaf.resume();
  let isCut = false;
  deaf.on("close", () => {
    isCut = true;
  });
  await until("the connection is ended", () => isCut);
  await until("the room has left memory", () => server.rooms.size === 0);
});

it("a stock client that says nothing is kept, and hears a sign of life", async () => {
  server = await startTestServer({ limits: { heartbeat: 10 } });
  const ann = await joinStock(server.url, "algebra");
  clients.push(ann);
  let heard = 0;
  ann.provider.ws?.addEventListener("message", () => heard++);
  await until("several signs of life", () => heard >= 5);
  expect(ann.provider.wsconnected).toBe(true);
});
