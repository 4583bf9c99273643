import { describe, expect, it } from "vitest";
import { fileProblemText, readCircuitFile } from "../../shared/circuit";
import { examples, exampleTitle } from "./examples";

describe("published entries are circuit files as they stand", () => {
  it("and there are 88 of them, each under an id of its own", () => {
    expect(new Set(examples.map((example) => example.id)).size).toBe(88);
  });

  it.each(examples.map((example) => [exampleTitle(example), example] as const))("%s", (_title, example) => {
    const reading = readCircuitFile(example);
    if (!reading.ok) throw new Error(reading.problems.map(fileProblemText).join("\n"));
    const { circuit, unanswerable } = reading.value;
    expect(circuit.parts.map((part) => part.id)).toEqual(example.elements.map((element) => element.id));
    expect(circuit.wanted.length + unanswerable.length).toBe(example.wanted.length);
    // What a steady state cannot answer is asked by the transient entries alone.
    expect(unanswerable.length > 0).toBe(example.topic === "transient-first-order");
  });

  it("and those that print rms amplitudes have rms sources", () => {
    const rms = examples.filter((example) => example.amplitude_kind === "rms");
    expect(rms).toHaveLength(3);
    for (const example of rms) {
      const reading = readCircuitFile(example);
      const sinusoids = (reading.ok ? reading.value.circuit.parts : []).flatMap((part) =>
        part.kind === "voltage-source" && part.voltage.kind === "sinusoid" ? [part.voltage.measure] : [],
      );
      expect(new Set(sinusoids)).toEqual(new Set(["rms"]));
    }
  });
});
