import { describe, expect, it } from "vitest";
import { Palm } from "../../../src/ink/palm";

const pen = { pointerId: 1, pointerType: "pen" };
const hand = { pointerId: 2, pointerType: "touch" };
const finger = { pointerId: 3, pointerType: "touch" };
const mouse = { pointerId: 4, pointerType: "mouse" };

describe("a hand that holds a pen", () => {
  it("rests where it comes down after the pen, for as long as it lies there", () => {
    const palm = new Palm();
    expect(palm.down(pen)).toBe("pen");
    expect(palm.down(hand)).toBe("rests");
    palm.up(pen);
    expect(palm.rests(hand)).toBe(true);
    expect(palm.up(hand)).toBe(true);
    expect(palm.rests(hand)).toBe(false);
  });

  it("rests where it came down before the pen, once the pen does", () => {
    const palm = new Palm();
    expect(palm.down(hand)).toBe("acts");
    expect(palm.rests(hand)).toBe(false);
    palm.down(pen);
    expect(palm.rests(hand)).toBe(true);
    expect(palm.rests(pen)).toBe(false);
  });

  it("is a hand again when pen and hand are lifted", () => {
    const palm = new Palm();
    palm.down(pen);
    palm.down(hand);
    palm.up(hand);
    expect(palm.up(pen)).toBe(false);
    expect(palm.down(hand)).toBe("acts");
  });
});

it("fingers and a mouse act where there is no pen", () => {
  const palm = new Palm();
  expect([hand, finger, mouse].map((each) => palm.down(each))).toEqual(["acts", "acts", "acts"]);
  expect([hand, finger, mouse].map((each) => palm.up(each))).toEqual([false, false, false]);
});
