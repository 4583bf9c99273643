import fc from "fast-check";
import { CircuitBuilder } from "./circuitBuilder";
import { type CircuitJson, pasteable } from "./circuits";
import { choice, positiveText, signedText } from "./values";

const ends = { from: choice, to: choice };
const resistor = fc.record({ ...ends, value: positiveText });
const reactance = fc.record({ ...ends, kind: fc.constantFrom("inductor", "capacitor"), value: positiveText });
const source = fc.record({
  ...ends,
  kind: fc.constantFrom("voltage-source", "current-source"),
  value: signedText,
  amplitude: positiveText,
  phase: fc.integer({ min: -11, max: 12 }).map((steps) => `${15 * steps}°`),
  /** "0" stands for a constant source. */
  omega: fc.constantFrom("0", "100", "1000", "2500"),
  waveform: fc.constantFrom("cos", "sin"),
});

/**
 * Random circuits of resistors, inductors, capacitors and 1 to 4 sources, sinusoidal of up to three frequencies or
 * constant. The tree of resistors gives every frequency exactly one solution, resonance included; an inductor never
 * closes a loop with other ideal voltages, so DC has one too.
 */
export function sinusoidalCircuits(): fc.Arbitrary<CircuitJson> {
  return fc
    .record({
      tree: fc.array(resistor, { minLength: 1, maxLength: 4 }),
      chords: fc.array(resistor, { maxLength: 3 }),
      reactances: fc.array(reactance, { minLength: 1, maxLength: 4 }),
      sources: fc.array(source, { minLength: 1, maxLength: 4 }),
    })
    .map((plan) => {
      const builder = new CircuitBuilder();
      for (const { from, value } of plan.tree) builder.extend(from, value);
      for (const chord of plan.chords) builder.join("resistor", chord, { value: `${chord.value} Ω` });
      for (const { kind, value, ...between } of plan.reactances) {
        if (kind === "capacitor") builder.join(kind, between, { value: `${value} µF` });
        else builder.holdVoltage(kind, between, { value: `${value} mH` });
      }
      for (const { kind, value, amplitude, phase, omega, waveform, ...between } of plan.sources) {
        if (omega === "0") {
          builder.drive({ kind, value, ...between });
          continue;
        }
        const unit = kind === "voltage-source" ? "V" : "A";
        const fields = { amplitude: `${amplitude} ${unit}`, phase, omega: `${omega} rad/s`, waveform };
        if (kind === "voltage-source") builder.holdVoltage(kind, between, fields);
        else builder.join(kind, between, fields);
      }
      return pasteable(builder.circuit());
    });
}
