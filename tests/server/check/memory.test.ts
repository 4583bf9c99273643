import { expect, it } from "vitest";
import { Memory } from "../../../server/check/memory";

it("makes what is asked for once, and forgets what was asked for longest ago where there is too much", () => {
  const made: string[] = [];
  const memory = new Memory<string>(2);
  const take = (key: string) =>
    memory.take(key, () => {
      made.push(key);
      return key.toUpperCase();
    });
  expect(["a", "b", "a", "c", "a", "b"].map(take)).toEqual(["A", "B", "A", "C", "A", "B"]);
  expect(made).toEqual(["a", "b", "c", "b"]);
  expect(memory.size).toBe(2);
});

it("remembers that there is nothing, too", () => {
  let made = 0;
  const memory = new Memory<string | null>(2);
  const take = () =>
    memory.take("a", () => {
      made += 1;
      return null;
    });
  expect([take(), take()]).toEqual([null, null]);
  expect(made).toBe(1);
});
