import fc from "fast-check";
import type { RawElement } from "../independent/elements";
import { CircuitBuilder } from "./circuitBuilder";
import { choice, positiveText, signedText } from "./values";

/** A circuit file as JSON. */
export type CircuitJson = {
  readonly format: "addend-circuit";
  readonly version: 1;
  readonly elements: readonly RawElement[];
  readonly reference: string;
  readonly wanted: readonly Readonly<Record<string, string>>[];
};

/** Which parts a random circuit may hold besides resistors and independent sources. */
export type CircuitParts = {
  readonly dependentSources: boolean;
  readonly opAmps: boolean;
  readonly transformers: boolean;
  readonly switchesAndWires: boolean;
};

export const EVERY_PART: CircuitParts = {
  dependentSources: true,
  opAmps: true,
  transformers: true,
  switchesAndWires: true,
};
export const RESISTORS_AND_SOURCES: CircuitParts = {
  dependentSources: false,
  opAmps: false,
  transformers: false,
  switchesAndWires: false,
};

const ends = { from: choice, to: choice };
const resistor = fc.record({ ...ends, value: positiveText });
const source = fc.record({ ...ends, kind: fc.constantFrom("voltage-source", "current-source"), value: signedText });
const dependent = fc.record({
  ...ends,
  kind: fc.constantFrom("vcvs", "vccs", "ccvs", "cccs"),
  control: choice,
  controlTo: choice,
  direction: fc.constantFrom("forward", "backward"),
  gain: signedText,
});
const amplifier = fc.record({ input: choice, isInverting: fc.boolean(), first: positiveText, second: positiveText });
const transformer = fc.record({
  ...ends,
  secondary: choice,
  isIsolated: fc.boolean(),
  ratio: signedText,
  load: positiveText,
});
const joint = fc.record({ ...ends, kind: fc.constantFrom("wire", "closed", "open"), value: positiveText });

const upTo = <T>(isAllowed: boolean, arbitrary: fc.Arbitrary<T>, maxLength: number): fc.Arbitrary<T[]> =>
  fc.array(arbitrary, { maxLength: isAllowed ? maxLength : 0 });

/**
 * Random connected DC circuits with 1 to 4 independent sources, as circuit files. A tree of resistors joins all nodes
 * and ideal voltages never close a loop, so without dependent sources and amplifiers there is exactly one solution;
 * a dependent gain or an amplifier's feedback may make the equations singular, which the laws then take into account.
 *
 * Shrinks by dropping parts and making values simpler; a failing circuit is printed as JSON that can be pasted into a file.
 */
export function circuits(parts: CircuitParts, maxResistors = 12): fc.Arbitrary<CircuitJson> {
  const treeSize = Math.min(6, Math.ceil(maxResistors / 2));
  return fc
    .record({
      tree: fc.array(resistor, { minLength: 1, maxLength: treeSize }),
      chords: fc.array(resistor, { maxLength: maxResistors - treeSize }),
      amplifiers: upTo(parts.opAmps, amplifier, 2),
      transformers: upTo(parts.transformers, transformer, 1),
      joints: upTo(parts.switchesAndWires, joint, 2),
      sources: fc.array(source, { minLength: 1, maxLength: 4 }),
      dependents: upTo(parts.dependentSources, dependent, 2),
    })
    .map((plan) => {
      const builder = new CircuitBuilder();
      for (const { from, value } of plan.tree) builder.extend(from, value);
      for (const chord of plan.chords) builder.join("resistor", chord, { value: `${chord.value} Ω` });
      for (const plannedAmplifier of plan.amplifiers) builder.amplify(plannedAmplifier);
      for (const plannedTransformer of plan.transformers) builder.transform(plannedTransformer);
      for (const plannedJoint of plan.joints) builder.switchOrWire(plannedJoint);
      for (const plannedSource of plan.sources) builder.drive(plannedSource);
      for (const plannedDependent of plan.dependents) builder.follow(plannedDependent);
      return pasteable(builder.circuit());
    });
}

/** Makes fast-check print the value as JSON instead of as a JavaScript literal. */
export function pasteable<T extends object>(value: T): T {
  return Object.defineProperty(value, fc.toStringMethod, { value: () => JSON.stringify(value), enumerable: false });
}
