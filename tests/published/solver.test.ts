import { complex } from "mathjs";
import { describe, expect, it } from "vitest";
import { fileProblemText, readCircuitFile } from "../../shared/circuit";
import { type PhasorShown, type Report, type Shown, solveReport } from "../../shared/solve";
import { exact } from "../independent/elements";
import {
  type Check,
  checksOf,
  checkTitle,
  type Example,
  exampleTitle,
  omegaOfCheck,
  steadyExamples,
  transientExamples,
} from "./examples";
import { expectPrinted, expectPrintedPhasor } from "./printed";

// The published numbers against the solver, each entry read as it stands by the reader of circuit files.

function reportOf(example: Example, groups?: readonly (readonly string[])[]): Report {
  const reading = readCircuitFile(example);
  if (!reading.ok) throw new Error(reading.problems.map(fileProblemText).join("\n"));
  const { circuit, unanswerable } = reading.value;
  const ids = new Map(circuit.parts.map((part) => [part.id as string, part.id]));
  const named = groups?.map((group) => group.flatMap((id) => ids.get(id) ?? []));
  return solveReport(circuit, { unanswerable, ...(named ? { groups: named } : {}) });
}

describe.each(steadyExamples.map((example) => [exampleTitle(example), example] as const))("%s", (_, example) => {
  it.each(checksOf(example).map((check) => [checkTitle(check), check] as const))("%s", (_title, check) => {
    const shown = check.acting === null ? totalOf(example, check) : addendOf(example, check, check.acting);
    const omega = omegaOfCheck(example, check);
    if (isSinusoidal(example)) {
      const phasor = phasorAt(shown, omega);
      expect(phasor.measure).toBe(example.amplitude_kind ?? "peak");
      const { magnitude, phaseDegrees } = phasor;
      const printed = complex({ r: magnitude, phi: (phaseDegrees * Math.PI) / 180 });
      expectPrintedPhasor(complex(printed.re, printed.im), check.answer, check.roundedTo);
    } else {
      expect(shown.exact).not.toBeNull();
      expectPrinted(exact.fraction(shown.exact ?? ""), check.answer, check.roundedTo);
    }
  });

  it("has no fault, and every second method agrees", () => {
    const report = reportOf(example);
    expect(report.problems.filter(({ severity }) => severity === "fault")).toEqual([]);
    expect(report.wanted.filter(({ secondMethod }) => secondMethod?.agrees === false)).toEqual([]);
  });
});

const isSinusoidal = (example: Example): boolean => example.elements.some((element) => element.amplitude !== undefined);

function totalOf(example: Example, check: Check): Shown {
  return present(reportOf(example).wanted[check.wantedIndex]?.total);
}

/** What these sources give alone; for power, which has no addends, what the part absorbs in their circuit. */
function addendOf(example: Example, check: Check, acting: readonly string[]): Shown {
  const report = acting.length === 1 ? reportOf(example) : reportOf(example, [acting]);
  const isThese = ({ sources }: { readonly sources: readonly string[] }) => sources.join() === acting.join();
  const wanted = report.wanted[check.wantedIndex];
  if (check.wanted.quantity !== "power") return present(wanted?.addends.find(isThese)?.value);
  const sheet = report.partials.find(isThese);
  const absorbed = present(sheet?.parts.find(({ part }) => part === check.wanted.through)?.power);
  expect(wanted?.addends).toEqual([]);
  expect(wanted?.note).toContain(absorbed.text);
  return absorbed;
}

function present<T>(value: T | null | undefined): T {
  if (value === null || value === undefined) throw new Error("the report has no such answer");
  return value;
}

/** The term of one frequency; a constant that stands alone has none and is its own. */
function phasorAt({ phasors, decimal }: Shown, omega: number): PhasorShown {
  const phasor = phasors.find((term) => Math.abs(term.omega - omega) <= 1e-12 * omega);
  if (phasor) return phasor;
  if (omega !== 0 || decimal === null) throw new Error(`the report has no term at ${omega} rad/s`);
  return { omega, magnitude: Math.abs(decimal), phaseDegrees: decimal < 0 ? 180 : 0, measure: "peak" };
}

describe.each(transientExamples.map((example) => [exampleTitle(example), example] as const))("%s", (_, example) => {
  it("asks for times after a switch moved, and is told in a sentence each that steady states are answered", () => {
    const told = reportOf(example).problems.filter(({ code }) => code === "steadyStateOnly");
    expect(told.length).toBe(example.wanted.length);
    for (const { text } of told) expect(text).toMatch(/^[^.!?]{20,}[.](?: [^.]+[.])?$/);
    expect(reportOf(example).wanted).toEqual([]);
  });
});
