import { expect, it } from "vitest";
import { firstLines, R, V, workingFor } from "./workedFor";

// 12 V behind 3 Ω is 4 A beside 3 Ω, as seen from a.
it("after a source transformation the circuit is drawn with the new source and its resistance beside it", () => {
  const parts = [V("V1", "s", "0", "12 V"), R("R1", "s", "a", "3"), R("R2", "a", "0", "6"), R("R3", "a", "0", "4")];
  const working = workingFor(parts, { name: "Ix", quantity: "current", through: "R2", from: "a", to: "0" });
  const [first] = firstLines(working);
  expect(first?.rule).toEqual({ kind: "source-transformation", to: "current" });
  const sketch = working.addends[0]?.derivation.sketches[first?.sketch ?? -1];
  const drawn = sketch?.elements.map(({ id, kind, nodes, value, of }) => [id, kind, nodes.join(), value, of.join()]);
  expect(drawn).toEqual([
    ["R2", "resistor", "a,0", "6 Ω", "R2"],
    ["R3", "resistor", "a,0", "4 Ω", "R3"],
    // A current source's current runs from its first node to its second: out of the reference, into a.
    ["It", "current-source", "0,a", "4 A", "V1"],
    ["R1", "resistor", "0,a", "3 Ω", "R1"],
  ]);
});
