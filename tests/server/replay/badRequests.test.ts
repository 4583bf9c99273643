import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { INSTRUCTOR, joinPage, type PageClient } from "../support/pageClient";
import { startTestServer, type TestServer } from "../support/testServer";

const ROOM = "algebra";
let server: TestServer;
let hart: PageClient;

beforeAll(async () => {
  server = await startTestServer();
  hart = await joinPage(server.url, ROOM, INSTRUCTOR);
});
afterAll(async () => {
  hart.leave();
  await server.stop();
});

async function send(method: string, path: string, body: string | null): Promise<readonly [number, string]> {
  const response = await fetch(`http://127.0.0.1:${server.port}/api/rooms/${path}`, {
    method,
    headers: { cookie: hart.cookie },
    ...(body === null ? {} : { body }),
  });
  return [response.status, await response.text()];
}

const BODIES = [
  ["POST", `${ROOM}/replay/go-on`],
  ["POST", `${ROOM}/replay/chapters`],
  ["POST", `${ROOM}/replay/links`],
  ["PUT", `${ROOM}/retention`],
] as const;

describe.each(BODIES)("%s %s", (method, path) => {
  it.each([
    ["no JSON", "{", 400, "no JSON"],
    ["nothing", "", 400, "no JSON"],
    ["a list", "[]", 400, "is not as it should be"],
    [
      "a field too many",
      '{"do":"remove","id":"x","at":0,"name":"x","until":null,"keep":"forever","more":1}',
      400,
      "is not as it should be",
    ],
    ["the field __proto__", '{"__proto__":{"at":0,"name":"x"}}', 400, "is not as it should be"],
    ["more than it may have", `"${"x".repeat(9000)}"`, 413, "at most 8192 bytes"],
  ])("with %s is refused with a sentence", async (_what, body, status, sentence) => {
    expect(await send(method, path, body)).toEqual([status, expect.stringContaining(sentence)]);
  });
});

it.each([
  ["PATCH", `${ROOM}/retention`],
  ["POST", `${ROOM}/replay`],
  ["POST", `${ROOM}/replay/entries`],
  ["DELETE", `${ROOM}/replay`],
  ["DELETE", `${ROOM}/replay/links/1e9`],
  ["DELETE", `${ROOM}/replay/links/99999999999`],
  ["PUT", `${ROOM}/replay/chapters`],
  ["GET", `${ROOM}/replay/..%2farchive`],
])("there is nothing to %s at %s", async (method, path) => {
  expect((await send(method, path, null))[0]).toBe(404);
});

it.each([
  ["board", "at"],
  ["board?at=-1", "at"],
  ["answers?at=1e3", "at"],
  ["board?at=0&unfit=x", "unfit"],
  ["board?at=0&unfit=", "unfit"],
  ["entries?from=0", "from"],
  ["entries?from=1&to=9999999999", "to"],
])("%s names what is wrong: %s", async (what, name) => {
  const [status, text] = await send("GET", `${ROOM}/replay/${what}`, null);
  expect(status).toBe(400);
  // As JSON, so with its quotation marks escaped.
  expect(text).toContain(JSON.stringify(`"${name}" of the address is to be the number of an entry.`).slice(1, -1));
});

it("a room's name that is none has no replay", async () => {
  for (const name of ["%00", "a%20b", "..", "x".repeat(65), "__proto__", "import-archive"]) {
    expect((await send("GET", `${name}/replay`, null))[0]).toBe(404);
  }
});
