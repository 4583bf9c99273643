import fc from "fast-check";
import { expect, it } from "vitest";
import { countWhile } from "../../shared/quantity";

it("counts the places that a condition holds for before the first that it fails for", () => {
  fc.assert(
    fc.property(fc.nat(50), fc.nat(50), (length, end) => {
      expect(countWhile(length, (place) => place < end)).toBe(Math.min(length, end));
    }),
  );
});

it("asks about ten of a thousand places", () => {
  const asked: number[] = [];
  countWhile(1000, (place) => asked.push(place) > 0);
  expect(asked.length).toBeLessThanOrEqual(10);
});
