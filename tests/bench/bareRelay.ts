import { createServer } from "node:http";
import { createDecoder, readVarUint } from "lib0/decoding";
import { createEncoder, length, toUint8Array, writeVarUint } from "lib0/encoding";
import { type WebSocket, WebSocketServer } from "ws";
import { readSyncMessage, writeSyncStep1, writeUpdate } from "y-protocols/sync";
import * as Y from "yjs";

// The least that a y-websocket client can work with: one document, held in memory, each update passed on to everybody
// else at once. No rooms, no rights, no history, no answers. What the real server is measured against.

const SYNC = 0;
const doc = new Y.Doc();
const sockets = new Set<WebSocket>();

doc.on("update", (update: Uint8Array, origin: unknown) => {
  const encoder = createEncoder();
  writeVarUint(encoder, SYNC);
  writeUpdate(encoder, update);
  const frame = toUint8Array(encoder);
  for (const socket of sockets) if (socket !== origin) socket.send(frame);
});

const http = createServer();
new WebSocketServer({ server: http }).on("connection", (socket) => {
  socket.binaryType = "nodebuffer";
  sockets.add(socket);
  socket.on("close", () => sockets.delete(socket));
  socket.on("message", (data: Buffer) => {
    const decoder = createDecoder(new Uint8Array(data));
    if (readVarUint(decoder) !== SYNC) return;
    const encoder = createEncoder();
    writeVarUint(encoder, SYNC);
    readSyncMessage(decoder, encoder, doc, socket);
    if (length(encoder) > 1) socket.send(toUint8Array(encoder));
  });
  const encoder = createEncoder();
  writeVarUint(encoder, SYNC);
  writeSyncStep1(encoder, doc);
  socket.send(toUint8Array(encoder));
});
http.listen(0, "127.0.0.1", () => {
  const address = http.address();
  process.stdout.write(`${typeof address === "object" ? address?.port : address}\n`);
});
