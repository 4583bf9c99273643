import { describe, expect, it } from "vitest";
import { missedText, momentLink, readAddress, sharedLink } from "../../../src/replay/replayAddress";
import { nextChapter, replayKey } from "../../../src/replay/replayKeys";
import { elapsedText, lengthText, spokenElapsed } from "../../../src/replay/times";

describe("times of a replay", () => {
  it("are written by hours, minutes and seconds", () => {
    expect([0, 5_000, 724_000, 3_727_999].map(elapsedText)).toEqual(["0:00", "0:05", "12:04", "1:02:07"]);
  });
  it("are told as lengths in the unit that fits them", () => {
    expect([44_600, 720_000, 3_900_000, 7_200_000, 260_000_000].map(lengthText)).toEqual([
      "45 s",
      "12 min",
      "1 h 5 min",
      "2 h",
      "3 days",
    ]);
  });
  it("are said in words", () => {
    expect([0, 1000, 724_000].map(spokenElapsed)).toEqual(["the beginning", "1 second", "12 minutes 4 seconds"]);
  });
});

describe("the address of a replay", () => {
  it("tells the moment and the secret of a link, and nothing else that stands there", () => {
    expect(readAddress("?at=120", "#link=a-b_C9")).toEqual({ at: 120, unread: null, secret: "a-b_C9", isCut: false });
    expect(readAddress("", "")).toEqual({ at: null, unread: null, secret: null, isCut: false });
    expect(readAddress("?at=-3", "#link=<script>")).toEqual({
      ...{ at: null, unread: "-3", secret: null },
      isCut: true,
    });
  });
  it("is known to be cut where it begins as a link's and has no secret that can be read", () => {
    const isCut = (fragment: string) => readAddress("", fragment).isCut;
    expect(["#link", "#link=", "#Link=", "#link=a-b_C9.", "#link=a%20b"].map(isCut)).toEqual(Array(5).fill(true));
    expect(["", "#", "#linked", "#notes", "#link=a-b_C9"].map(isCut)).toEqual(Array(5).fill(false));
  });
  it("says why the session opens elsewhere, where it names no moment or none of this session", () => {
    expect(missedText({ at: null, unread: "1e3" }, 51)).toBe(
      "“1e3” in the link names no moment. This is the beginning.",
    );
    expect(missedText({ at: 52, unread: null }, 51)).toBe(
      "The link names moment 52, but the session has only 51. This is its end.",
    );
    expect([missedText({ at: 51, unread: null }, 51), missedText({ at: null, unread: null }, 51)]).toEqual([
      null,
      null,
    ]);
  });
  it("is read as it was made", () => {
    const moment = new URL(momentLink("k7m2xq", 7, "abc", "http://127.0.0.1:3000/room/k7m2xq/replay?at=1"));
    expect([moment.pathname, readAddress(moment.search, moment.hash)]).toEqual([
      "/room/k7m2xq/replay",
      { at: 7, unread: null, secret: "abc", isCut: false },
    ]);
    expect(sharedLink("k7m2xq", "abc", "http://127.0.0.1:3000")).toBe(
      "http://127.0.0.1:3000/room/k7m2xq/replay#link=abc",
    );
  });
});

describe("the keys of a replay", () => {
  const press = (key: string, more: object = {}) =>
    replayKey({ key, shiftKey: false, ctrlKey: false, metaKey: false, altKey: false, ...more });
  it("step by edits, with Shift by ten seconds, and go to chapters and ends", () => {
    expect(press(" ")).toEqual({ do: "toggle" });
    expect(press("ArrowLeft")).toEqual({ do: "edit", step: -1 });
    expect(press("ArrowRight", { shiftKey: true })).toEqual({ do: "leap", by: 10_000 });
    expect(press("PageDown")).toEqual({ do: "chapter", step: 1 });
    expect(press("End")).toEqual({ do: "end" });
  });
  it("are none of the browser's own", () => {
    expect(press("ArrowLeft", { altKey: true })).toBeNull();
    expect(press("Home", { ctrlKey: true })).toBeNull();
  });
  it("go to the chapter after or before the moment that is shown", () => {
    expect([nextChapter([2, 5, 9], 5, 1), nextChapter([2, 5, 9], 5, -1)]).toEqual([9, 2]);
    expect(nextChapter([2, 5, 9], 9, 1)).toBeNull();
  });
});
