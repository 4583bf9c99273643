import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { add, isZero, multiply, type Rational, rational, rationalText, subtract, ZERO } from "../../shared/quantity";
import { type CircuitJson, circuits, EVERY_PART, pasteable, RESISTORS_AND_SOURCES } from "../generators/circuits";
import { choice, pick } from "../generators/values";
import type { RawElement } from "../independent/elements";
import { type Answer, dcNetwork, dcResiduals } from "../independent/tableau";
import { inFractions, type Solved, solvedExactly } from "./solved";

// Laws of linear circuits, held exactly by every random circuit. fast-check prints the seed, and the failing circuit as
// JSON that `npm run solve` takes.

const anyCircuit = circuits(EVERY_PART);
const largeCircuit = circuits(EVERY_PART, 30);

/** Goes on with circuits that have a solution; which ones have is a law of its own below. */
function solvedOrSkip(json: CircuitJson): Solved<Rational> {
  const solved = solvedExactly(json);
  fc.pre(solved !== null);
  return solved;
}

/** All that an answer says, by name, as text that can be compared. */
function textOf(
  answer: Answer<Rational>,
  nodes: readonly string[],
  branches: readonly string[],
): Record<string, string> {
  return Object.fromEntries([
    ...nodes.map((node) => [`e ${node}`, rationalText(answer.node(node))]),
    ...branches.map((branch) => [`v ${branch}`, rationalText(answer.voltage(branch))]),
    ...branches.map((branch) => [`i ${branch}`, rationalText(answer.current(branch))]),
  ]);
}

function sameAnswer(a: Solved<Rational>, b: Solved<Rational>): void {
  expect(textOf(a.total, a.mainNodes, a.branches)).toEqual(textOf(b.total, a.mainNodes, a.branches));
}

const isVoltageSource = (element: RawElement) => element.kind === "voltage-source";
const isSource = (element: RawElement) => isVoltageSource(element) || element.kind === "current-source";

/** The circuit redrawn with only these sources: a zeroed voltage source is a wire, a zeroed current source is gone. */
function redrawnWith(json: CircuitJson, acting: readonly string[]): CircuitJson {
  const elements = json.elements.flatMap((element): RawElement[] => {
    if (!isSource(element) || acting.includes(element.id)) return [element];
    return isVoltageSource(element) ? [{ id: element.id, kind: "wire", nodes: element.nodes }] : [openSwitch(element)];
  });
  return pasteable({ ...json, elements });
}

/** Keeps the name of a current source that others may follow; nothing flows through it. */
function openSwitch({ id, nodes }: RawElement): RawElement {
  return { id, kind: "switch", nodes, state: "open" };
}

describe("the independent tableau", { timeout: 60_000 }, () => {
  it("finds the same circuits to be without a single solution", () =>
    fc.assert(
      fc.property(anyCircuit, (json) => {
        expect(solvedExactly(json) === null).toBe(dcNetwork(json) === null);
      }),
      { numRuns: 100 },
    ));

  it("gives the same node voltages and branch currents for all sources and for each alone, exactly", () =>
    fc.assert(
      fc.property(anyCircuit, (json) => {
        const { total, alone, sources, mainNodes, branches } = solvedOrSkip(json);
        const tableau = dcNetwork(json);
        for (const acting of [sources, ...sources.map((source) => [source])]) {
          const ours = inFractions(acting === sources ? total : alone(acting));
          const other = tableau?.answer(acting);
          for (const node of mainNodes) expect(ours.node(node)).toEqual(other?.node(node));
          for (const branch of branches) {
            expect(ours.voltage(branch)).toEqual(other?.voltage(branch));
            expect(ours.current(branch)).toEqual(other?.current(branch));
          }
        }
      }),
      { numRuns: 40 },
    ));
});

describe("a solution put back", { timeout: 60_000 }, () => {
  it("satisfies Kirchhoff's laws and every branch relation exactly, all sources on", () =>
    fc.assert(
      fc.property(largeCircuit, (json) => {
        const { total, sources } = solvedOrSkip(json);
        expect(dcResiduals(json, sources, inFractions(total)).every((rest) => rest.n === 0n)).toBe(true);
      }),
    ));

  it("satisfies them with one source on", () =>
    fc.assert(
      fc.property(largeCircuit, choice, (json, which) => {
        const { alone, sources } = solvedOrSkip(json);
        const acting = [pick(sources, which)];
        expect(dcResiduals(json, acting, inFractions(alone(acting))).every((rest) => rest.n === 0n)).toBe(true);
      }),
    ));
});

describe("superposition", { timeout: 60_000 }, () => {
  it("adds the addends of every voltage and current to the total exactly", () =>
    fc.assert(
      fc.property(largeCircuit, (json) => {
        const { total, alone, sources, nodes, branches } = solvedOrSkip(json);
        const addends = sources.map((source) => alone([source]));
        const sumOf = (read: (answer: Answer<Rational>) => Rational) =>
          addends.map(read).reduce((sum, addend) => add(sum, addend), ZERO);
        for (const node of nodes) expect(sumOf((a) => a.node(node))).toEqual(total.node(node));
        for (const branch of branches) {
          expect(sumOf((a) => a.voltage(branch))).toEqual(total.voltage(branch));
          expect(sumOf((a) => a.current(branch))).toEqual(total.current(branch));
        }
      }),
    ));

  it("gives as an addend what the circuit gives when the other sources are replaced by wires and gaps", () =>
    fc.assert(
      fc.property(anyCircuit, choice, (json, which) => {
        const { alone, sources, mainNodes, branches } = solvedOrSkip(json);
        const acting = [pick(sources, which)];
        const redrawn = solvedExactly(redrawnWith(json, acting));
        expect(redrawn).not.toBeNull();
        if (redrawn === null) return;
        expect(textOf(alone(acting), mainNodes, branches)).toEqual(textOf(redrawn.total, mainNodes, branches));
      }),
    ));

  it("scales an addend with its source and leaves the other addends alone", () =>
    fc.assert(
      fc.property(anyCircuit, choice, fc.integer({ min: -9, max: 9 }), (json, which, factor) => {
        const before = solvedOrSkip(json);
        const scaled = pick(before.sources, which);
        const elements = json.elements.map((element) =>
          element.id === scaled ? { ...element, value: scaledText(element.value, factor) } : element,
        );
        const after = solvedExactly({ ...json, elements });
        for (const source of before.sources) {
          const times = rational(BigInt(source === scaled ? factor : 1));
          for (const branch of before.branches) {
            const expected = multiply(before.alone([source]).current(branch), times);
            expect(after?.alone([source]).current(branch)).toEqual(expected);
          }
        }
      }),
    ));
});

/** `"7/3 V"` times 4 is `"28/3 V"`. */
function scaledText(value: RawElement["value"], factor: number): string {
  const [, sign = "", n = "", rest = ""] = /^(-?)(\d+)(.*)$/.exec(String(value)) ?? [];
  return `${Number(`${sign}${n}`) * factor}${rest}`;
}

describe("power", { timeout: 60_000 }, () => {
  it("supplied and absorbed balance exactly, for the total and for each source alone", () =>
    fc.assert(
      fc.property(largeCircuit, (json) => {
        const { total, alone, sources, branches } = solvedOrSkip(json);
        for (const answer of [total, ...sources.map((source) => alone([source]))]) {
          const powers = branches.map((branch) => multiply(answer.voltage(branch), answer.current(branch)));
          expect(isZero(powers.reduce((sum, power) => add(sum, power), ZERO))).toBe(true);
        }
      }),
    ));
});

describe("reciprocity, without dependent sources and op amps", { timeout: 60_000 }, () => {
  const reciprocal = circuits({ ...EVERY_PART, dependentSources: false, opAmps: false });

  it("1 A beside one part gives another the voltage that 1 A beside the other gives the one", () =>
    fc.assert(
      fc.property(reciprocal, choice, choice, (json, first, second) => {
        const passive = redrawnWith(json, []);
        const resistors = json.elements.filter((element) => element.kind === "resistor");
        const [one, other] = [pick(resistors, first), pick(resistors, second)];
        const transfer = (driven: RawElement, seen: RawElement) => {
          const source = { id: "Itest", kind: "current-source", nodes: driven.nodes, value: "1 A" };
          return solvedExactly({ ...passive, elements: [...passive.elements, source] })?.total.voltage(seen.id);
        };
        expect(transfer(one, other)).toBeDefined();
        expect(transfer(one, other)).toEqual(transfer(other, one));
      }),
    ));
});

describe("names and order", { timeout: 60_000 }, () => {
  it("of parts have no part in the answers", () =>
    fc.assert(
      fc.property(
        anyCircuit.chain((json) =>
          fc.record({
            json: fc.constant(json),
            elements: fc.shuffledSubarray([...json.elements], { minLength: json.elements.length }),
          }),
        ),
        ({ json, elements }) => {
          const before = solvedOrSkip(json);
          const after = solvedExactly(pasteable({ ...json, elements }));
          expect(after).not.toBeNull();
          if (after !== null) sameAnswer(before, after);
        },
      ),
    ));

  it("of nodes neither: renamed, and in the reverse order of the alphabet", () =>
    fc.assert(
      fc.property(anyCircuit, (json) => {
        const before = solvedOrSkip(json);
        const after = solvedExactly(renamed(json, nodeName));
        expect(after).not.toBeNull();
        if (after === null) return;
        for (const node of before.mainNodes) expect(after.total.node(nodeName(node))).toEqual(before.total.node(node));
        expect(textOf(after.total, [], before.branches)).toEqual(textOf(before.total, [], before.branches));
      }),
    ));
});

const nodeName = (node: string): string => `n${99 - Number(node)}`;

function renamed(json: CircuitJson, name: (node: string) => string): CircuitJson {
  const elements = json.elements.map((element) => ({
    ...element,
    nodes: element.nodes.map(name),
    ...(element.control?.voltage ? { control: { voltage: element.control.voltage.map(name) } } : {}),
  }));
  return pasteable({ ...json, elements, reference: name(json.reference), wanted: [] });
}

describe("another reference node", { timeout: 60_000 }, () => {
  // Without op amps: their output current returns through the reference node, so it is part of such a circuit.
  const withoutAmplifiers = circuits({ ...EVERY_PART, opAmps: false });

  it("shifts all node voltages alike and changes no branch", () =>
    fc.assert(
      fc.property(withoutAmplifiers, choice, (json, which) => {
        const before = solvedOrSkip(json);
        const reference = pick(before.mainNodes, which);
        const after = solvedExactly(pasteable({ ...json, reference }));
        expect(after).not.toBeNull();
        if (after === null) return;
        const shift = before.total.node(reference);
        for (const node of before.mainNodes) {
          expect(after.total.node(node)).toEqual(subtract(before.total.node(node), shift));
        }
        expect(textOf(after.total, [], before.branches)).toEqual(textOf(before.total, [], before.branches));
      }),
    ));
});

it("circuits of resistors and sources are always solved, however many parts", () =>
  fc.assert(
    fc.property(circuits(RESISTORS_AND_SOURCES, 30), (json) => {
      expect(solvedExactly(json)?.solution.problems.filter(({ code }) => code === "singularEquations")).toEqual([]);
    }),
  ));
