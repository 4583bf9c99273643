import { complex } from "mathjs";
import { describe, expect, it } from "vitest";
import { readCircuitFile } from "../../shared/circuit";
import { type Derivation, type Working, workingsOf } from "../../shared/derive";
import type { Shown } from "../../shared/solve";
import { exact } from "../independent/elements";
import {
  type Check,
  checksOf,
  checkTitle,
  type Example,
  exampleTitle,
  omegaOfCheck,
  steadyExamples,
} from "../published/examples";
import { expectPrinted, expectPrintedPhasor } from "../published/printed";

// Every published example has a working to its end, and its last line is the published number.

function workingsFor(example: Example, groups?: readonly (readonly string[])[]): readonly Working[] {
  const reading = readCircuitFile(example);
  if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
  return workingsOf(reading.value.circuit, groups ? { groups: groups as never } : {});
}

function lastOf(derivation: Derivation | undefined): Shown {
  const result = derivation?.lines.at(-1)?.equations.at(-1)?.result;
  if (result === null || result === undefined) throw new Error("the last line has no result");
  return result;
}

function expectPublished(example: Example, check: Check, shown: Shown): void {
  const isSinusoidal = example.elements.some((element) => element.amplitude !== undefined);
  if (!isSinusoidal) {
    expectPrinted(exact.fraction(shown.exact ?? ""), check.answer, check.roundedTo);
    return;
  }
  const omega = omegaOfCheck(example, check);
  const phasor = shown.phasors.find((term) => Math.abs(term.omega - omega) <= 1e-12 * omega);
  const size = phasor?.magnitude ?? shown.decimal ?? Number.NaN;
  const degrees = phasor?.phaseDegrees ?? 0;
  const printed = complex({ r: size, phi: (degrees * Math.PI) / 180 });
  expectPrintedPhasor(complex(printed.re, printed.im), check.answer, check.roundedTo);
}

describe.each(steadyExamples.map((example) => [exampleTitle(example), example] as const))("%s", (_, example) => {
  const workings = workingsFor(example);

  it("has a working of each wanted quantity, and no line was withheld", () => {
    expect(workings.map(({ faults }) => faults)).toEqual(example.wanted.map(() => []));
    for (const { total, addends } of workings) {
      expect(total.lines.length).toBeGreaterThan(0);
      for (const { derivation } of addends) expect(derivation.lines.length).toBeGreaterThan(0);
    }
  });

  it.each(checksOf(example).map((check) => [checkTitle(check), check] as const))("ends with: %s", (_title, check) => {
    if (check.acting === null) {
      expectPublished(example, check, lastOf(workings[check.wantedIndex]?.total));
      return;
    }
    if (check.wanted.quantity === "power") return;
    const [working] = workingsFor(
      { ...example, wanted: [check.wanted] },
      check.acting.length === 1 ? undefined : [check.acting],
    );
    const isThese = ({ sources }: { readonly sources: readonly string[] }) => sources.join() === check.acting?.join();
    expectPublished(example, check, lastOf(working?.addends.find(isThese)?.derivation));
  });

  it("comes to the same by every second method that applies", () => {
    for (const { secondMethods, total, kind } of workings) {
      for (const { agrees, derivation } of secondMethods) {
        if (derivation === null) continue;
        expect(agrees).toBe(true);
        const isSingle = (total.result?.phasors.length ?? 0) < 2;
        if (kind !== "current" && kind !== "voltage") continue;
        if (isSingle) expect(lastOf(derivation).text).toBe(total.result?.text);
      }
    }
  });
});
