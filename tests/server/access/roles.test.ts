import * as encoding from "lib0/encoding";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import * as Y from "yjs";
import { ENTRY, type MemoryHistory } from "../../../server/history";
import { noticeText, type RoomAction } from "../../../shared/messages";
import { admit } from "../support/admit";
import { INSTRUCTOR, joinPage, type PageClient } from "../support/pageClient";
import { joinRaw, refusedUpgrade } from "../support/rawClient";
import { joinStock } from "../support/stockClient";
import { startTestServer, type TestServer } from "../support/testServer";
import { until } from "../support/until";

let server: TestServer;
let hart: PageClient;
let ann: PageClient;
let olga: PageClient;
const ROOM = "algebra";

beforeEach(async () => {
  server = await startTestServer();
  hart = await joinPage(server.url, ROOM, INSTRUCTOR);
  ann = await joinPage(server.url, ROOM, { name: "Ann" });
  olga = await joinPage(server.url, ROOM, { name: "Olga", as: "observer" });
  const areHere = (page: PageClient) => page.state?.participants.filter(({ isHere }) => isHere).length === 3;
  await until("all see all", () => [hart, ann, olga].every(areHere));
});
afterEach(async () => {
  for (const page of [hart, ann, olga]) page.leave();
  await server.stop();
});

const updates = () => (server.store as MemoryHistory).entries.filter(({ kind }) => kind === ENTRY.update);

/** An update of somebody who has a board of their own, as the sync message `step` (1 or 2). */
function writing(step: number, key: string): Uint8Array {
  const doc = new Y.Doc();
  doc.getMap("board").set(key, "1k");
  const encoder = encoding.createEncoder();
  encoding.writeVarUint(encoder, 0);
  encoding.writeVarUint(encoder, step);
  encoding.writeVarUint8Array(encoder, Y.encodeStateAsUpdate(doc));
  return encoding.toUint8Array(encoder);
}

describe("the room as each is told it", () => {
  it("has everybody in the order in which they came, with role and whether they may draw", () => {
    const { you, ...rest } = ann.state ?? { you: null };
    expect(you).toEqual({ ...ann.you, mayDraw: true, isNameKept: true });
    expect(rest).toEqual({
      participants: [
        { ...hart.you, isHere: true, mayDraw: true },
        { ...ann.you, isHere: true, mayDraw: true },
        { ...olga.you, isHere: true, mayDraw: false },
      ],
      drawing: "everyone",
      answers: { shown: true, except: [] },
      lines: { shown: false, except: [] },
      trying: { figures: 3, units: "demanded", judging: "atOnce", zeroing: "drawn" },
      isLocked: false,
      isEnded: false,
      tryOf: null,
    });
    expect(olga.state?.you).toEqual({ ...olga.you, mayDraw: false, isNameKept: true });
  });

  it("says who is away, and counts two pages of one participant as one", async () => {
    const second = await joinPage(server.url, ROOM, { name: "Bob" });
    await until("hart sees bob", () => hart.state?.participants.length === 4);
    second.leave();
    const isHere = () => hart.state?.participants.find(({ id }) => id === second.you.id)?.isHere;
    await until("bob is away", () => isHere() === false);
  });
});

describe("who draws", () => {
  it.each([1, 2])("not an observer, in the framing [0, %i]: refused, told, and nobody sees it", async (step) => {
    olga.send(writing(step, "R9"));
    await until("olga is told", () => olga.notices.length === 1);
    expect(olga.notices).toEqual([{ code: "changeRefused", why: "notAllowed" }]);
    ann.board.set("R1", "3.3k");
    await until("the rest goes on", () => hart.board.has("R1"));
    expect(hart.board.toJSON()).toEqual({ R1: "3.3k" });
    expect(updates()).toHaveLength(1);
  });

  it("a page whose change was refused is repaired, and again in step", async () => {
    olga.board.set("R9", "9k");
    await until("olga has begun again", () => olga.repairs === 1 && olga.provider.synced);
    expect(olga.board.toJSON()).toEqual({});
    hart.board.set("R1", "1k");
    await until("olga follows", () => olga.board.get("R1") === "1k");
  });

  it("an observer who has nothing to say is not refused, also where much was drawn and deleted", async () => {
    for (let index = 0; index < 20; index++) hart.board.set("R1", index);
    hart.board.delete("R1");
    hart.board.set("R2", "2k");
    await until("olga has it", () => olga.board.get("R2") === "2k");
    olga.provider.disconnect();
    olga.provider.connect();
    await until("olga is back", () => olga.provider.synced);
    olga.provider.awareness.setLocalStateField("card", "total");
    await until("olga is heard", () => hart.provider.awareness.getStates().get(olga.doc.clientID)?.card === "total");
    expect(olga.notices).toEqual([]);
  });

  it("a deletion alone is a change too", async () => {
    hart.board.set("R1", "1k");
    await until("olga has it", () => olga.board.get("R1") === "1k");
    olga.board.delete("R1");
    await until("olga is told", () => olga.notices.length === 1);
    await until("and repaired", () => olga.provider.synced && olga.board.get("R1") === "1k");
    expect(hart.board.get("R1")).toBe("1k");
  });

  it("the instructor alone, once it is set so, and chosen learners after that", async () => {
    const bob = await joinPage(server.url, ROOM, { name: "Bob" });
    hart.ask({ do: "setDrawing", who: "instructor" });
    await until("ann is told", () => ann.state?.you.mayDraw === false);
    ann.board.set("R1", "1k");
    await until("ann is repaired", () => ann.repairs === 1 && ann.provider.synced);
    expect(ann.notices.at(-1)).toEqual({ code: "changeRefused", why: "notAllowed" });
    hart.ask({ do: "setDrawing", who: "chosen" });
    hart.ask({ do: "setMayDraw", participant: ann.you.id, may: true });
    await until("ann may draw", () => ann.state?.you.mayDraw === true);
    ann.board.set("R1", "1k");
    await until("hart sees it", () => hart.board.get("R1") === "1k");
    bob.board.set("R2", "2k");
    await until("bob is repaired", () => bob.repairs === 1 && bob.provider.synced);
    expect(bob.board.toJSON()).toEqual({ R1: "1k" });
    expect(hart.state?.participants.map(({ mayDraw }) => mayDraw)).toEqual([true, true, false, false]);
    bob.leave();
  });

  it("the instructor alone in a locked room, which nobody new can join but whoever holds the key", async () => {
    hart.ask({ do: "lock", locked: true });
    await until("ann is told", () => ann.state?.isLocked === true && !ann.state.you.mayDraw);
    ann.board.set("R1", "1k");
    await until("ann is told why", () => ann.notices.length === 1);
    expect(ann.notices).toEqual([{ code: "changeRefused", why: "locked" }]);
    hart.board.set("R2", "2k");
    await until("ann follows", () => ann.provider.synced && ann.board.get("R2") === "2k");
    await expect(admit(server.url, ROOM)).rejects.toThrow("423");
    expect((await admit(server.url, ROOM, { name: "Ann" }, ann.cookie)).you).toEqual(ann.you);
    expect((await admit(server.url, ROOM, INSTRUCTOR)).you.role).toBe("instructor");
    hart.ask({ do: "lock", locked: false });
    await until("ann may draw again", () => ann.state?.you.mayDraw === true);
    expect((await admit(server.url, ROOM)).you.role).toBe("learner");
  });

  it("nobody in a room that has ended, which its members can still read", async () => {
    hart.board.set("R1", "1k");
    hart.ask({ do: "end" });
    await until("all are told", () => [hart, ann, olga].every(({ notices }) => notices.at(-1)?.code === "ended"));
    hart.board.set("R2", "2k");
    await until("hart is repaired", () => hart.repairs === 1 && hart.provider.synced);
    expect(hart.notices.at(-1)).toEqual({ code: "changeRefused", why: "ended" });
    expect(hart.board.toJSON()).toEqual({ R1: "1k" });
    expect(await hart.refusalOf({ do: "setAnswers", shown: false })).toMatchObject({ why: "ended" });
    await expect(admit(server.url, ROOM)).rejects.toThrow("410");
    await expect(admit(server.url, ROOM, INSTRUCTOR)).rejects.toThrow("410");
    const again = await joinRaw(server.url, ROOM, ann.cookie);
    await until("ann's second page hears of the room", () => again.frames.length > 0);
    again.socket.terminate();
  });

  it("a stock client that is refused is not sent messages that it doesn't know", async () => {
    const stock = await joinStock(server.url, ROOM, { as: "observer" });
    let heard = 0;
    stock.provider.ws?.addEventListener("message", ({ data }) => {
      if (new Uint8Array(data as ArrayBuffer)[0] === 101) heard++;
    });
    stock.board.set("R9", "9k");
    stock.provider.awareness.setLocalStateField("card", "total");
    await until("what came behind it arrives", () => hart.provider.awareness.getStates().has(stock.doc.clientID));
    expect(hart.board.has("R9")).toBe(false);
    expect(heard).toBe(0);
    stock.leave();
  });
});

describe("removing", () => {
  it("closes all connections of a participant with a code of its own, and for good", async () => {
    const second = await joinRaw(server.url, ROOM, ann.cookie);
    hart.ask({ do: "removeParticipant", participant: ann.you.id });
    await until("ann is out", () => ann.closed !== 0);
    expect(ann.closed).toBe(4403);
    expect(ann.notices).toEqual([{ code: "removed" }]);
    expect((await second.closedAfter(new Uint8Array())).code).toBe(4403);
    await until("hart sees it", () => hart.state?.participants.length === 2);
    const refused = { status: 403, sentence: "The instructor has removed you from this room." };
    expect(await refusedUpgrade(`${server.url}/${ROOM}`, { cookie: ann.cookie })).toEqual(refused);
    await expect(admit(server.url, ROOM, {}, ann.cookie)).rejects.toThrow("403");
    await expect(admit(server.url, ROOM, INSTRUCTOR, ann.cookie)).rejects.toThrow("403");
  });

  it("outlives the server", async () => {
    hart.ask({ do: "removeParticipant", participant: ann.you.id });
    hart.ask({ do: "setDrawing", who: "instructor" });
    await until("it is so", () => hart.state?.drawing === "instructor");
    const { store, directory } = server;
    await server.stop();
    server = await startTestServer({ store, directory });
    await expect(admit(server.url, ROOM, {}, ann.cookie)).rejects.toThrow("403");
    const again = await joinPage(server.url, ROOM, { name: "Bob" });
    expect(again.state).toMatchObject({ drawing: "instructor", you: { mayDraw: false } });
    expect(again.state?.participants.map(({ name }) => name)).toEqual(["Prof. Hart", "Olga", "Bob"]);
    again.leave();
  });
});

describe("requests", () => {
  const ACTIONS: readonly RoomAction[] = [
    { do: "setDrawing", who: "everyone" },
    { do: "setDrawing", who: "instructor" },
    { do: "setMayDraw", participant: "self", may: true },
    { do: "setAnswers", shown: true },
    { do: "setShown", card: "total", shown: true },
    { do: "renameParticipant", participant: "hart", name: "Fool" },
    { do: "removeParticipant", participant: "hart" },
    { do: "removeParticipant", participant: "self" },
    { do: "lock", locked: true },
    { do: "end" },
    { do: "comeToMe", view: { card: "total", wanted: null, center: [0, 0], scale: 1 } },
  ];

  it.each(["learner", "observer"])(
    "but a new name for oneself are all refused to a %s, and change nothing",
    async (role) => {
      const page = role === "learner" ? ann : olga;
      const before = JSON.stringify(hart.state);
      for (const action of ACTIONS) {
        const ids = { self: page.you.id, hart: hart.you.id };
        const meant =
          "participant" in action ? { ...action, participant: ids[action.participant as "self" | "hart"] } : action;
        expect(await page.refusalOf(meant)).toMatchObject({ why: "notAllowed" });
      }
      page.ask({ do: "renameParticipant", participant: page.you.id, name: "Zoë" });
      await until("the new name is told", () => hart.state?.participants.some(({ name }) => name === "Zoë") === true);
      expect(JSON.stringify(hart.state).replace("Zoë", page.you.name)).toBe(before);
      expect(noticeText(page.notices[0] ?? { code: "ended" })).toBe("Only the instructor can do this.");
    },
  );

  it("about instructors, observers and strangers are refused with what is the matter", async () => {
    expect(await hart.refusalOf({ do: "removeParticipant", participant: hart.you.id })).toMatchObject({
      why: "isInstructor",
    });
    expect(await hart.refusalOf({ do: "setMayDraw", participant: olga.you.id, may: true })).toMatchObject({
      why: "isObserver",
    });
    expect(await hart.refusalOf({ do: "removeParticipant", participant: "nobody" })).toMatchObject({
      why: "unknownParticipant",
    });
  });

  it("keep names apart, and let the instructor rename others", async () => {
    hart.ask({ do: "renameParticipant", participant: ann.you.id, name: " olga " });
    await until("ann is told", () => ann.state?.you.name === "olga 2");
  });

  it("'come to me' brings everybody else the view, and the history has it", async () => {
    const view = { card: "I1+V1", wanted: "w1", center: [3, -4.5], scale: 0.75 } as const;
    hart.ask({ do: "comeToMe", view });
    await until("both are called", () => ann.calls.length === 1 && olga.calls.length === 1);
    expect(ann.calls).toEqual([{ from: "Prof. Hart", view }]);
    expect(hart.calls).toEqual([]);
    const entry = (server.store as MemoryHistory).entries.find(({ kind }) => kind === ENTRY.call);
    expect(entry?.participant).toBe(hart.you.id);
    expect(JSON.parse(new TextDecoder().decode(entry?.bytes))).toEqual(view);
  });

  it("and changes stand in the history under the id of who made them", async () => {
    ann.board.set("R1", "1k");
    hart.ask({ do: "setShown", card: "V1", shown: false });
    hart.ask({ do: "lock", locked: true });
    await until("it is so", () => hart.state?.isLocked === true && hart.board.has("R1"));
    const told = (kind: string) =>
      (server.store as MemoryHistory).entries
        .filter((entry) => entry.kind === kind)
        .map(({ participant, bytes }) => [participant, kind === ENTRY.update ? "" : new TextDecoder().decode(bytes)]);
    expect(told(ENTRY.update)).toEqual([[ann.you.id, ""]]);
    expect(told(ENTRY.reveal)).toEqual([[hart.you.id, '{"do":"setShown","card":"V1","shown":false}']]);
    expect(told(ENTRY.settings).at(-1)).toEqual([hart.you.id, '{"do":"lock","locked":true}']);
    expect(told(ENTRY.join)[1]).toEqual([ann.you.id, '{"name":"Ann","role":"learner"}']);
  });
});
