import * as encoding from "lib0/encoding";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { joinPage, type PageClient } from "../support/pageClient";
import { startTestServer, type TestServer } from "../support/testServer";
import { until } from "../support/until";

let server: TestServer;
let ann: PageClient;
let bob: PageClient;
let eve: PageClient;

beforeEach(async () => {
  server = await startTestServer();
  [ann, bob, eve] = [
    await joinPage(server.url, "algebra", { name: "Ann" }),
    await joinPage(server.url, "algebra", { name: "Bob" }),
    await joinPage(server.url, "algebra", { name: "Eve" }),
  ];
  ann.provider.awareness.setLocalState({ card: "V1" });
  await until("bob sees ann", () => seen(bob, ann)?.card === "V1");
});
afterEach(async () => {
  for (const page of [ann, bob, eve]) page.leave();
  await server.stop();
});

const seen = (by: PageClient, of: PageClient) => by.provider.awareness.getStates().get(of.doc.clientID);

/** An awareness message that says these things of these clients, at a clock that is newer than any. */
function saying(...states: readonly (readonly [client: number, state: unknown])[]): Uint8Array {
  const update = encoding.createEncoder();
  encoding.writeVarUint(update, states.length);
  for (const [client, state] of states) {
    encoding.writeVarUint(update, client);
    encoding.writeVarUint(update, 1_000_000);
    encoding.writeVarString(update, JSON.stringify(state));
  }
  const message = encoding.createEncoder();
  encoding.writeVarUint(message, 1);
  encoding.writeVarUint8Array(message, encoding.toUint8Array(update));
  return encoding.toUint8Array(message);
}

describe("who somebody is", () => {
  it("is written by the server into each state", () => {
    expect(seen(bob, ann)).toEqual({ card: "V1", who: ann.you });
  });

  it.each<[string, unknown]>([
    ["another's name and role", { id: "x", name: "Prof. Hart", role: "instructor" }],
    ["nothing", null],
    ["a list", [1]],
  ])("can't be claimed otherwise: %s", async (_, who) => {
    eve.provider.awareness.setLocalState({ card: "total", who });
    await until("bob sees eve", () => seen(bob, eve)?.card === "total");
    expect(seen(bob, eve)?.who).toEqual(eve.you);
  });

  it("is the new name from the next state on, once somebody is renamed", async () => {
    ann.ask({ do: "renameParticipant", participant: ann.you.id, name: "Anna" });
    await until("it is told", () => ann.state?.you.name === "Anna");
    ann.provider.awareness.setLocalState({ card: "I1" });
    await until("bob sees the new state", () => seen(bob, ann)?.card === "I1");
    expect(seen(bob, ann)?.who).toEqual({ ...ann.you, name: "Anna" });
  });

  it("goes into states of the same participant's second page as well", async () => {
    eve.send(saying([4711, { card: "total" }]));
    await until("bob sees it", () => bob.provider.awareness.getStates().has(4711));
    expect(bob.provider.awareness.getStates().get(4711)).toEqual({ card: "total", who: eve.you });
  });
});

describe("another's awareness client", () => {
  it("can't be spoken for, and what is one's own in the same message still counts", async () => {
    eve.send(saying([ann.doc.clientID, { card: "forged" }], [eve.doc.clientID, { card: "own" }]));
    await until("bob sees eve", () => seen(bob, eve)?.card === "own");
    expect(seen(bob, ann)).toEqual({ card: "V1", who: ann.you });
    ann.provider.awareness.setLocalState({ card: "I1" });
    await until("ann goes on", () => seen(bob, ann)?.card === "I1");
  });

  it("can't be taken away", async () => {
    eve.send(saying([ann.doc.clientID, null], [eve.doc.clientID, { card: "own" }]));
    await until("bob sees eve", () => seen(bob, eve)?.card === "own");
    expect(seen(bob, ann)).toBeDefined();
  });

  it("can't be taken while they are away for a moment", async () => {
    ann.provider.disconnect();
    await until("ann is gone", () => seen(bob, ann) === undefined);
    eve.send(saying([ann.doc.clientID, { card: "forged" }], [eve.doc.clientID, { card: "own" }]));
    await until("bob sees eve", () => seen(bob, eve)?.card === "own");
    expect(seen(bob, ann)).toBeUndefined();
    ann.provider.connect();
    ann.provider.awareness.setLocalState({ card: "I1" });
    await until("ann is back", () => seen(bob, ann)?.card === "I1");
  });
});
