import { expect, it } from "vitest";
import { changesText } from "../../src/words/changes";
import type { PartWords } from "../../src/words/circuitWords";
import { id } from "../board/builders";

const part = (entry: string, name: string, text: string): PartWords => ({ entry: id(entry), name, text });
const R1 = part("a", "R1", "resistor of 1 kΩ, between node a and node b");
const R2 = part("b", "R2", "resistor of 2 kΩ, between node b and node c");

it("nothing is told where nothing has changed", () => expect(changesText([R1, R2], [R1, R2])).toBe(""));

it("a part that is new is told with what it is", () =>
  expect(changesText([R1], [R1, R2])).toBe("R2 is new: resistor of 2 kΩ, between node b and node c."));

it("a part that is gone is told by its name", () => expect(changesText([R1, R2], [R2])).toBe("R1 is gone."));

it("a value that has changed is told with the whole part", () =>
  expect(changesText([R1], [{ ...R1, text: "resistor of 3 kΩ, between node a and node b" }])).toBe(
    "R1 is now a resistor of 3 kΩ, between node a and node b.",
  ));

it("a part that begins with a vowel is told with the article that it takes", () => {
  const amp = part("c", "A1", "ideal op amp, + input at node a");
  expect(changesText([amp], [{ ...amp, text: "ideal op amp, + input at node b" }])).toBe(
    "A1 is now an ideal op amp, + input at node b.",
  );
});

it("a new name is told beside the old one", () =>
  expect(changesText([R1], [{ ...R1, name: "Rs" }])).toBe("R1 is called Rs now."));

it("more than three changes are counted", () =>
  expect(
    changesText(
      [],
      ["1", "2", "3", "4"].map((n) => part(n, `R${n}`, "resistor")),
    ),
  ).toBe("4 parts have changed."));
