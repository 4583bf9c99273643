import { describe, expect, it } from "vitest";
import {
  instructorLink,
  keyInFragment,
  learnerLink,
  readRoomCode,
  roomPath,
  tryPath,
} from "../../src/access/roomLinks";

const ORIGIN = "https://boards.example/room/other?x=1#key=old";

describe("a room's links", () => {
  it("are the room's address, and for instructors its key behind #", () => {
    expect(learnerLink("k7m2xq", ORIGIN)).toBe("https://boards.example/room/k7m2xq");
    expect(instructorLink("k7m2xq", "a-B_9", ORIGIN)).toBe("https://boards.example/room/k7m2xq#key=a-B_9");
  });

  it.each([
    ["#key=a-B_9", "a-B_9"],
    ["", null],
    ["#key=", null],
    ["#key=a b", null],
    ["#other=x", null],
  ])("in the fragment %j the key is %j", (fragment, key) => expect(keyInFragment(fragment)).toBe(key));
});

describe("the pages of a room's tries", () => {
  it("are beneath its own: that of whoever opens it, and each by its name for the instructor", () => {
    expect(roomPath("k7m2xq")).toBe("/room/k7m2xq");
    expect(tryPath("k7m2xq")).toBe("/room/k7m2xq/try");
    expect(tryPath("k7m2xq", "x2y3")).toBe("/room/k7m2xq/try/x2y3");
  });

  it("are no room's code", () => expect(readRoomCode("https://boards.example/room/k7m2xq/try")).toBeNull());
});

describe("a code as somebody types or pastes it", () => {
  it.each([
    ["k7m2xq", "k7m2xq"],
    [" K7M 2XQ ", "k7m2xq"],
    ["k7m-2xq", "k7m2xq"],
    ["demo", "demo"],
    ["https://boards.example/room/k7m2xq", "k7m2xq"],
    ["boards.example/room/k7m2xq/", "k7m2xq"],
  ])("%j is the room %s", (text, room) => expect(readRoomCode(text)).toEqual({ room, key: null }));

  it("may be the whole instructor's link", () =>
    expect(readRoomCode("https://boards.example/room/k7m2xq#key=a-B_9")).toEqual({ room: "k7m2xq", key: "a-B_9" }));

  it.each(["", "  ", "no such code!", "ä7m2xq", "https://boards.example/"])("%j is no code", (text) =>
    expect(readRoomCode(text)).toBeNull(),
  );
});
