import { expect, it } from "vitest";
import { entryIdMaker } from "../../src/room/entryIds";
import { isRoomName } from "../../src/room/roomName";

it.each(["demo", "wxk4-h7mt-q2rd", "A_1", "a".repeat(64)])("%s may name a room", (name) =>
  expect(isRoomName(name)).toBe(true),
);
it.each(["", "-a", "a b", "a/b", "ä", "..", "a".repeat(65)])("%j may not", (name) =>
  expect(isRoomName(name)).toBe(false),
);

it("entry ids come in the order in which they were made, also within one millisecond", () => {
  const next = entryIdMaker(
    () => 1_790_000_000_000,
    () => 0.5,
  );
  const ids = Array.from({ length: 50 }, next);
  expect([...ids].sort()).toEqual(ids);
  expect(new Set(ids).size).toBe(50);
});
