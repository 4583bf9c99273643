import { afterAll, beforeEach, describe, expect, it } from "vitest";
import { MemoryDirectory, type RoomDirectory, UNFINISHED } from "../../../server/history";
import { openStores, removeFolders, temporaryFolder } from "../support/database";

/** A directory with one room, "old", from before rooms had keys. */
const DIRECTORIES = {
  "in memory": async (): Promise<RoomDirectory> => {
    const directory = new MemoryDirectory();
    await directory.create("old", null);
    return directory;
  },
  "in SQLite": async (): Promise<RoomDirectory> => {
    const { store, directory } = await openStores(temporaryFolder());
    // As a room came to be then: by its first entry.
    const entry = {
      room: "old",
      sequence: 1,
      time: 0,
      participant: "unknown",
      kind: "update",
      bytes: new Uint8Array(),
    };
    await store.append([entry]);
    return directory;
  },
};

describe.each(Object.entries(DIRECTORIES))("a directory %s", (_, open) => {
  let directory: RoomDirectory;
  beforeEach(async () => {
    directory = await open();
  });
  afterAll(removeFolders);

  it("has the rooms that were made, and gives a name away once", async () => {
    expect(await directory.create("abc234", "hash")).toBe(true);
    expect(await directory.create("abc234", "other")).toBe(false);
    expect(await directory.find("abc234")).toEqual({ room: "abc234", keyHash: "hash", tryOf: null });
    expect(await directory.find("zzzzzz")).toBeNull();
  });

  it("gives a name to one of many who ask at once", async () => {
    const asked = await Promise.all(
      Array.from({ length: 10 }, (_each, index) => directory.create("abc234", `${index}`)),
    );
    expect(asked.filter(Boolean)).toEqual([true]);
  });

  it("knows rooms without a key until they are given one, which can be changed", async () => {
    await directory.create("abc234", "hash");
    expect(await directory.keyless()).toEqual(["old"]);
    await directory.setKey("old", "one");
    await directory.setKey("old", "two");
    await directory.setKey("zzzzzz", "none");
    expect(await directory.keyless()).toEqual([]);
    expect(await directory.find("old")).toEqual({ room: "old", keyHash: "two", tryOf: null });
    expect(await directory.find("zzzzzz")).toBeNull();
  });

  it("lists where somebody was, latest first, as it was when they were last there, so many at most", async () => {
    for (const room of ["a", "b", "c"]) await directory.create(room, room);
    await directory.noteVisit("ann", "a", { title: "One", role: "learner", lastSeen: 1000 });
    await directory.noteVisit("ann", "b", { title: "Two", role: "observer", lastSeen: 2000 });
    await directory.noteVisit("bob", "c", { title: "Three", role: "instructor", lastSeen: 3000 });
    await directory.noteVisit("ann", "a", { title: "New", role: "instructor", lastSeen: 4000 });
    expect(await directory.visits("ann", 10)).toEqual([
      { room: "a", title: "New", role: "instructor", lastSeen: 4000 },
      { room: "b", title: "Two", role: "observer", lastSeen: 2000 },
    ]);
    expect(await directory.visits("ann", 1)).toHaveLength(1);
    await directory.noteVisit("ann", "a", null);
    expect((await directory.visits("ann", 10)).map(({ room }) => room)).toEqual(["b"]);
    expect(await directory.visits("nobody", 10)).toEqual([]);
  });

  it("notes nothing of a room that isn't there", async () => {
    await directory.noteVisit("ann", "zzzzzz", null);
    expect(await directory.visits("ann", 10)).toEqual([]);
  });

  it("names the rooms that an import has begun and not ended", async () => {
    await directory.create("abc234", UNFINISHED);
    await directory.create("def567", "hash");
    expect(await directory.unfinished()).toEqual(["abc234"]);
    await directory.setKey("abc234", "hash");
    expect(await directory.unfinished()).toEqual([]);
  });

  it("has one try of a room's problem for each participant, whatever is asked at once", async () => {
    await directory.create("abc234", "hash");
    await directory.create("def567", "hash");
    expect(await directory.findTry("abc234", "ann")).toBeNull();
    await Promise.all(["t1", "t2", "t3"].map((name) => directory.createTry(name, "abc234", "ann")));
    const name = await directory.findTry("abc234", "ann");
    expect(["t1", "t2", "t3"]).toContain(name);
    await directory.createTry("t4", "abc234", "bob");
    await directory.createTry("t5", "def567", "ann");
    expect(await directory.find("t4")).toEqual({ room: "t4", keyHash: null, tryOf: { room: "abc234", owner: "bob" } });
    expect((await directory.tries("abc234")).map(({ room, owner }) => [room, owner])).toEqual([
      [name, "ann"],
      ["t4", "bob"],
    ]);
    expect(await directory.tries("zzzzzz")).toEqual([]);
    await expect(directory.createTry("t6", "zzzzzz", "ann")).rejects.toThrow();
  });

  it("makes no try where the name is a room's, and gives the name of a try to no room", async () => {
    await directory.create("abc234", "hash");
    await directory.createTry("abc234", "abc234", "ann");
    expect(await directory.findTry("abc234", "ann")).toBeNull();
    await directory.createTry("t1", "abc234", "ann");
    expect(await directory.create("t1", "hash")).toBe(false);
  });

  it("keeps how far a try is, and counts no try among the rooms that lack a key", async () => {
    await directory.create("abc234", "hash");
    await directory.createTry("t1", "abc234", "ann");
    expect((await directory.tries("abc234"))[0]?.progress).toBeNull();
    await directory.noteProgress("t1", { right: 1, cards: 4, changedAt: 5 });
    await directory.noteProgress("t1", { right: 2, cards: 4, changedAt: 9 });
    await directory.noteProgress("zzzzzz", { right: 2, cards: 4, changedAt: 9 });
    expect(await directory.tries("abc234")).toEqual([
      { room: "t1", owner: "ann", progress: { right: 2, cards: 4, changedAt: 9 } },
    ]);
    expect(await directory.keyless()).toEqual(["old"]);
  });
});
