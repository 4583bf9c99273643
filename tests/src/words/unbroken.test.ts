import { describe, expect, it } from "vitest";
import { unbroken } from "../../../src/words/unbroken";

/** With `~` for each no-break space. */
const shown = (sentence: string): string => unbroken(sentence).replaceAll("\u00a0", "~");

describe("a sentence on the page", () => {
  it.each([
    ["agrees with the sum: ≈ −1.333 mA", "agrees with the sum: ≈ −1.333~mA"],
    [
      "Supplied 60 mW, absorbed 60 mW; the difference is 0 W.",
      "Supplied 60~mW, absorbed 60~mW; the difference is 0~W.",
    ],
    ["V1 alone gives 1 mA, which is 1/12 mS × 12 V.", "V1 alone gives 1~mA, which is 1/12~mS × 12~V."],
    ["voltage source of 24 V rms ∠ 0° @ 50 Hz", "voltage source of 24~V~rms ∠ 0° @ 50~Hz"],
    ["5 + 4 cos(1600 rad/s · t) V at 4.7 kΩ", "5 + 4 cos(1600~rad/s · t)~V at 4.7~kΩ"],
  ])("has no line's end between a number and its unit: %s", (sentence, unbrokenOne) =>
    expect(shown(sentence)).toBe(unbrokenOne),
  );

  it("can end a line anywhere else, behind a name with a number as well", () => {
    const sentence = "R1 and R2 are in series, node 2 at V1 from 0 to b, 3 mesh currents, 2 sources in R3 A";
    expect(shown(sentence)).toBe(sentence);
  });
});
