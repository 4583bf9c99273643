import { type Complex, complex, type Fraction } from "mathjs";
import { describe, expect, it } from "vitest";
import { exact } from "../independent/elements";
import { portResistance, shortCircuitCurrent } from "../independent/port";
import { dcNetwork, type Network, phasorNetwork, sourcesOf } from "../independent/tableau";
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

// The published numbers against the independent tableau: shows that the data and its circuits are right before the
// solver is held against them.

it("leaves out only the three examples that ask for a transient", () => {
  expect(steadyExamples.length + transientExamples.length).toBe(88);
  expect(transientExamples.map((example) => example.id)).toEqual([
    "e84-transient-rl-current-source",
    "e84-transient-rl-two-batteries",
    "os-rl-growth",
  ]);
});

describe.each(steadyExamples.map((example) => [exampleTitle(example), example] as const))("%s", (_, example) => {
  const dc = lazily(() => dcNetwork(example));
  it.each(checksOf(example).map((check) => [checkTitle(check), check] as const))("%s", (_title, check) => {
    const omega = omegaOfCheck(example, check);
    const acting = check.acting ?? sourcesOf(example);
    if (omega === 0) expectPrinted(exactActual(example, check, acting, dc), check.answer, check.roundedTo);
    else expectPrintedPhasor(phasorActual(example, check, acting, omega), check.answer, check.roundedTo);
  });
});

function lazily<T>(make: () => T | null): () => T {
  let made: T | null = null;
  return () => {
    made ??= make();
    if (made === null) throw new Error("the tableau is singular");
    return made;
  };
}

function exactActual(
  example: Example,
  { wanted }: Check,
  acting: readonly string[],
  dc: () => Network<Fraction>,
): Fraction {
  const { from, to, through } = wanted;
  const [start, end] = [from ?? "", to ?? ""];
  switch (wanted.quantity) {
    case "current":
      return dcCurrent(example, wanted, acting, dc());
    case "voltage":
    case "open-circuit-voltage":
      return dc().answer(acting).between(start, end);
    case "power": {
      const answer = dc().answer(acting);
      return exact.multiply(answer.voltage(through ?? ""), answer.current(through ?? "")) as Fraction;
    }
    case "resistance":
      return solved(portResistance(example, start, end));
    case "short-circuit-current":
      return solved(shortCircuitCurrent(example, start, end, acting));
    default:
      throw new Error(`${example.id}: no way to check a ${wanted.quantity}`);
  }
}

function dcCurrent(
  example: Example,
  wanted: Check["wanted"],
  acting: readonly string[],
  network: Network<Fraction>,
): Fraction {
  const current = network.answer(acting).current(wanted.through ?? "");
  return isForward(example, wanted) ? current : (exact.unaryMinus(current) as Fraction);
}

function phasorActual(example: Example, { wanted }: Check, acting: readonly string[], omega: number): Complex {
  const answer = solved(phasorNetwork(example, omega)).answer(acting);
  if (wanted.quantity === "voltage") return answer.between(wanted.from ?? "", wanted.to ?? "");
  if (wanted.quantity !== "current") throw new Error(`${example.id}: no way to check a phasor ${wanted.quantity}`);
  const current = answer.current(wanted.through ?? "");
  return isForward(example, wanted) ? current : complex(-current.re, -current.im);
}

/** Whether the wanted direction is that of the branch, first node to second; an op amp's branch runs into its output. */
function isForward(example: Example, { through, from, to }: Check["wanted"]): boolean {
  const element = example.elements.find(({ id }) => id === through);
  if (element?.kind === "ideal-opamp") return from !== through;
  const [first, second] = element?.nodes ?? [];
  if (from === first && to === second) return true;
  if (from === second && to === first) return false;
  throw new Error(`${example.id}: ${through} does not run from ${from} to ${to}`);
}

function solved<T>(value: T | null): T {
  if (value === null) throw new Error("the tableau is singular");
  return value;
}
