import { connect } from "node:net";
import fc from "fast-check";
import * as encoding from "lib0/encoding";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import * as Y from "yjs";
import { admit } from "./support/admit";
import { broken, richUpdate } from "./support/brokenBytes";
import { joinRaw, refusedUpgrade } from "./support/rawClient";
import { joinStock, type StockClient } from "./support/stockClient";
import { startTestServer, type TestServer } from "./support/testServer";
import { until } from "./support/until";

vi.setConfig({ testTimeout: 60_000 });

const KB = 1024;
let server: TestServer;
let ann: StockClient;
let bob: StockClient;

/** Two honest people in a room with one part; whatever happens, they go on in step and lose nothing. */
beforeEach(async () => {
  const limits = {
    frameBytes: 64 * KB,
    roomBytes: 128 * KB,
    awarenessBytes: KB,
    awarenessClients: 3,
    updateStructs: 100,
  };
  server = await startTestServer({ limits });
  ann = await joinStock(server.url, "algebra");
  bob = await joinStock(server.url, "algebra");
  ann.board.set("R1", "3.3k");
  await until("both have the part", () => bob.board.size === 1);
});

afterEach(async () => {
  await expectUnharmed();
  for (const client of [ann, bob]) client.leave();
  await server.stop();
});

let changes = 0;
async function expectUnharmed(): Promise<void> {
  const value = `${++changes}k`;
  bob.board.set("R2", value);
  await until("the honest people are in step", () => ann.board.get("R2") === value);
  expect(ann.provider.wsconnected && bob.provider.wsconnected).toBe(true);
  const late = await joinStock(server.url, "algebra");
  expect(late.board.toJSON()).toMatchObject({ R1: "3.3k", R2: value });
  late.leave();
}

/** `varUint`s, then a byte array with its length. */
function frame(numbers: readonly number[], bytes?: Uint8Array): Uint8Array {
  const encoder = encoding.createEncoder();
  for (const number of numbers) encoding.writeVarUint(encoder, number);
  if (bytes) encoding.writeVarUint8Array(encoder, bytes);
  return encoding.toUint8Array(encoder);
}

const states = (...texts: readonly string[]) => {
  const encoder = encoding.createEncoder();
  encoding.writeVarUint(encoder, texts.length);
  for (const [index, text] of texts.entries()) {
    encoding.writeVarUint(encoder, 1000 + index);
    encoding.writeVarUint(encoder, 1);
    encoding.writeVarString(encoder, text);
  }
  return encoding.toUint8Array(encoder);
};

describe("a frame at fault ends its sender's connection with a reason", () => {
  const unknownType = (type: number) => `message type ${type} is not known`;
  const malformed = (length: number) => `the message of ${length} bytes is cut short or malformed`;
  it.each<[string, Uint8Array, string | RegExp]>([
    ["nothing at all", new Uint8Array(), malformed(0)],
    ["a number that never ends", new Uint8Array(20).fill(255), malformed(20)],
    ["an unknown message", frame([77]), unknownType(77)],
    ["an answer, which only the server gives", frame([100]), unknownType(100)],
    ["an unknown sync message", frame([0, 9]), "sync message type 9 is not known"],
    ["an update cut short", frame([0, 2], richUpdate()).slice(0, 40), malformed(40)],
    ["bytes behind the message", Uint8Array.of(...frame([3]), 1, 2), "2 bytes follow the message's end"],
    ["a length beyond the frame", frame([0, 2, 1_000_000]), malformed(5)],
    ["a state vector that can't be read", frame([0, 0], Uint8Array.of(255, 255)), "the state vector is malformed"],
    ["an update that can't be read", frame([0, 2], Uint8Array.of(9, 9, 9)), /^the update can't be read: /],
    ["an awareness update that can't be read", frame([1], Uint8Array.of(5, 1)), "the awareness update is malformed"],
    ["an awareness state that is no JSON", frame([1], states("{")), "the awareness update is malformed"],
    ["an awareness state that is no object", frame([1], states("7")), "the awareness update is malformed"],
  ])("%s", async (_, bytes, reason) => {
    const client = await joinRaw(server.url, "algebra");
    const close = await client.closedAfter(bytes);
    expect(close.code).toBe(4400);
    if (typeof reason === "string") expect(close.reason).toBe(reason);
    else expect(close.reason).toMatch(reason);
  });

  it("a text frame", async () => {
    const client = await joinRaw(server.url, "algebra");
    expect(await client.closedAfter("hello")).toEqual({
      code: 1003,
      reason: "a text frame came; this endpoint takes binary frames only",
    });
  });

  it("an update that Yjs reads and can't apply", async () => {
    // Byte 19 says where the value of R1 belongs: with 1 for 0 the item is its own parent.
    const update = richUpdate();
    update[19] = 1;
    const client = await joinRaw(server.url, "algebra");
    const close = await client.closedAfter(frame([0, 2], update));
    expect(close.code).toBe(4400);
    expect(close.reason).toMatch(/^the update can't be applied: /);
  });

  it("updates that build on what nobody has sent, after three questions for it", async () => {
    const author = new Y.Doc();
    author.getArray("ink").push([1]);
    const before = Y.encodeStateVector(author);
    author.getArray("ink").push([2]);
    const hanging = frame([0, 2], Y.encodeStateAsUpdate(author, before));
    const client = await joinRaw(server.url, "algebra");
    for (let time = 1; time <= 3; time++) {
      client.socket.send(hanging);
      await until(`question ${time}`, () => client.frames.filter(([a, b]) => a === 0 && b === 0).length === time);
    }
    expect(await client.closedAfter(hanging)).toEqual({
      code: 4400,
      reason: "the updates build on changes that were never sent",
    });
  });

  it("more items in an update than are allowed", async () => {
    const author = new Y.Doc();
    for (let index = 0; index < 101; index++) author.getMap("parts").set(`R${index}`, index);
    const client = await joinRaw(server.url, "algebra");
    const close = await client.closedAfter(frame([0, 2], Y.encodeStateAsUpdate(author)));
    expect(close).toEqual({ code: 4400, reason: "an update may hold 100 items, this one has 101" });
  });

  it("more awareness clients than one connection may speak for", async () => {
    const client = await joinRaw(server.url, "algebra");
    const close = await client.closedAfter(frame([1], states("{}", "{}", "{}", "{}")));
    expect(close).toEqual({ code: 4400, reason: "one connection may show 3 awareness clients" });
  });
});

describe("what is too large is refused with its size", () => {
  it("a frame", async () => {
    const client = await joinRaw(server.url, "algebra");
    const close = await client.closedAfter(new Uint8Array(64 * KB + 1));
    expect(close).toEqual({ code: 4413, reason: "a frame has at most 65536 bytes, this one has 65537" });
  });

  it("a frame of more than twice that, by the WebSocket library alone", async () => {
    const client = await joinRaw(server.url, "algebra");
    expect((await client.closedAfter(new Uint8Array(128 * KB + 1))).code).toBe(1009);
  });

  it("an awareness update", async () => {
    const client = await joinRaw(server.url, "algebra");
    const close = await client.closedAfter(frame([1], new Uint8Array(KB + 1)));
    expect(close).toEqual({ code: 4413, reason: "an awareness update has at most 1024 bytes, not 1025" });
  });

  it("a change that the room has no space for, and the room stays as it was", async () => {
    const author = new Y.Doc();
    author.getMap("notes").set("a", "x".repeat(60 * KB));
    const first = Y.encodeStateAsUpdate(author);
    author.getMap("notes").set("b", "y".repeat(60 * KB));
    const second = Y.encodeStateAsUpdate(author, Y.encodeStateVectorFromUpdate(first));
    author.getMap("notes").set("c", "z".repeat(60 * KB));
    const third = Y.encodeStateAsUpdate(author, Y.encodeStateVectorFromUpdate(Y.mergeUpdates([first, second])));
    const client = await joinRaw(server.url, "algebra");
    client.socket.send(frame([0, 2], first));
    client.socket.send(frame([0, 2], second));
    const close = await client.closedAfter(frame([0, 2], third));
    expect(close).toEqual({
      code: 4413,
      reason: "a room holds at most 131072 bytes; the last change was not taken in",
    });
    await until("the others have what fitted", () => ann.doc.getMap("notes").size === 2);
  });

  it("and what was overwritten leaves space again", async () => {
    for (let time = 0; time < 6; time++) {
      ann.doc.getMap("notes").set("a", String(time).repeat(50 * KB));
      await until(
        `change ${time} arrives`,
        () => bob.doc.getMap("notes").get("a") === ann.doc.getMap("notes").get("a"),
      );
    }
  });
});

it("random bytes, and good frames with bytes changed, harm nobody", async () => {
  const good = frame([0, 2], richUpdate());
  const anything = fc.oneof(
    fc.uint8Array({ maxLength: 60 }),
    broken(good),
    broken(frame([1], states('{"name":"Eve"}'))),
  );
  const { cookie } = await admit(server.url, "algebra");
  await fc.assert(
    fc.asyncProperty(fc.array(anything, { minLength: 1, maxLength: 5 }), async (frames) => {
      const client = await joinRaw(server.url, "algebra", cookie);
      for (const bytes of frames) client.socket.send(bytes);
      // Either the server has answered the last question, or it has closed the connection.
      client.socket.send(frame([0, 0], Uint8Array.of(0)));
      const isAnswered = () => client.frames.some(([type, step]) => type === 0 && step === 1);
      await until("the frames are dealt with", () => isAnswered() || client.socket.readyState === client.socket.CLOSED);
      client.socket.terminate();
    }),
    { numRuns: 150 },
  );
});

describe("addresses", () => {
  const rule =
    "A room's name has 1 to 64 letters (a to z), digits, hyphens and underscores, and starts with a letter or digit.";
  it.each(["", "-a", "a/b", "a b", "ä", "a".repeat(65), "%E0%A4%A", "a%00"])("a bad name: %j", async (name) => {
    expect(await refusedUpgrade(`${server.url}/${name}`)).toEqual({ status: 400, sentence: rule });
  });

  it("anywhere else than /sync", async () => {
    const address = server.url.replace("/sync", "/elsewhere");
    expect(await refusedUpgrade(address)).toEqual({
      status: 404,
      sentence: "WebSockets are spoken at /sync/<room> only.",
    });
  });

  it("GET /health says that the server serves", async () => {
    const response = await fetch(`http://127.0.0.1:${server.port}/health`);
    expect(await response.json()).toEqual({ ok: true });
    expect(response.headers.get("content-type")).toBe("application/json");
  });

  it("a socket that is reset in the middle of its upgrade", async () => {
    for (let time = 0; time < 20; time++) {
      const socket = connect(server.port, "127.0.0.1");
      socket.on("error", () => {});
      const request = ["GET /sync/-bad HTTP/1.1", "Host: x", "Upgrade: websocket", "Connection: Upgrade", "", ""];
      await new Promise<void>((resolve) => socket.write(request.join("\r\n"), () => resolve()));
      socket.resetAndDestroy();
    }
  });
});
