import fc from "fast-check";
import type { Fraction } from "mathjs";
import { describe, expect, it } from "vitest";
import { isIndependentSource, type PartId } from "../../shared/circuit";
import { type Report, type Shown, solveCircuit, solveReport } from "../../shared/solve";
import { type CircuitJson, circuits, EVERY_PART, pasteable } from "../generators/circuits";
import { choice, pick } from "../generators/values";
import { exact, exactValue, isSource } from "../independent/elements";
import { portResistance, shortCircuitCurrent } from "../independent/port";
import { dcNetwork, sourcesOf } from "../independent/tableau";
import { circuitOf } from "./solved";

// The same laws on what people are given: the fractions of a report.

const anyCircuit = circuits(EVERY_PART);

function fractionOf(shown: Shown | null | undefined): Fraction {
  if (typeof shown?.exact !== "string") throw new Error(`no exact number in ${JSON.stringify(shown)}`);
  return exact.fraction(shown.exact);
}

const sum = (values: readonly Fraction[]): Fraction =>
  values.reduce((total, value) => exact.add(total, value) as Fraction, exact.fraction(0));

const isSolved = (report: Report): boolean => report.nodes.some(({ voltage }) => voltage !== null);

function reportOrSkip(json: CircuitJson): Report {
  const circuit = circuitOf(json);
  fc.pre(solveCircuit(circuit).isSolved);
  return solveReport(circuit);
}

describe("a report of a random circuit", { timeout: 60_000 }, () => {
  it("has addends that add up exactly to the total of a wanted current and of a wanted voltage", () =>
    fc.assert(
      fc.property(anyCircuit, (json) => {
        const report = reportOrSkip(json);
        const linear = report.wanted.filter(({ kind, total }) => kind !== "power" && total !== null);
        for (const { total, addends } of linear) {
          expect(addends.length).toBe(report.sources.length);
          expect(sum(addends.map(({ value }) => fractionOf(value)))).toEqual(fractionOf(total));
        }
      }),
    ));

  it("has an addend that is its coefficient times its source's value", () =>
    fc.assert(
      fc.property(anyCircuit, (json) => {
        const report = reportOrSkip(json);
        const given = new Map(json.elements.filter(isSource).map(({ id, value }) => [id, exactValue(value ?? 0)]));
        for (const { addends } of report.wanted) {
          for (const { sources, value, coefficient } of addends) {
            const product = exact.multiply(fractionOf(coefficient?.value), given.get(sources[0] ?? "") ?? 0);
            expect(product).toEqual(fractionOf(value));
          }
        }
      }),
    ));

  it("has a sheet for each source, and these add up exactly at every node and in every part", () =>
    fc.assert(
      fc.property(anyCircuit, (json) => {
        const { nodes, parts, partials } = reportOrSkip(json);
        for (const [index, { voltage }] of nodes.entries()) {
          if (voltage === null) continue;
          expect(sum(partials.map((sheet) => fractionOf(sheet.nodes[index]?.voltage)))).toEqual(fractionOf(voltage));
        }
        for (const [index, { current }] of parts.entries()) {
          if (current === null) continue;
          expect(sum(partials.map((sheet) => fractionOf(sheet.parts[index]?.current)))).toEqual(fractionOf(current));
        }
      }),
    ));

  it("balances supplied and absorbed power exactly, and the parts' powers add up to 0", () =>
    fc.assert(
      fc.property(anyCircuit, (json) => {
        const { parts, powerBalance } = reportOrSkip(json);
        const byPart = new Map<string, Fraction>();
        for (const { part, power } of parts) {
          byPart.set(part, sum([byPart.get(part) ?? exact.fraction(0), fractionOf(power)]));
        }
        const powers = [...byPart.values()];
        expect(powerBalance?.difference.exact).toBe("0");
        expect(sum(powers).n).toBe(0n);
        const absorbed = sum(powers.filter((power) => power.s > 0n));
        expect(fractionOf(powerBalance?.absorbed)).toEqual(absorbed);
        expect(fractionOf(powerBalance?.supplied)).toEqual(absorbed);
      }),
    ));

  it("agrees with its second method", () =>
    fc.assert(
      fc.property(anyCircuit, (json) => {
        const report = reportOrSkip(json);
        expect(report.wanted.filter(({ secondMethod }) => secondMethod?.agrees === false)).toEqual([]);
      }),
    ));

  it("says in a sentence what is wrong wherever there are no answers", () =>
    fc.assert(
      fc.property(anyCircuit, (json) => {
        const report = solveReport(circuitOf(json));
        const faults = report.problems.filter(({ severity }) => severity === "fault");
        expect(faults.length > 0).toBe(!isSolved(report));
        for (const { text } of faults) expect(text).toMatch(/^\S.{15,}\.$/);
      }),
    ));

  it("is plain JSON", () =>
    fc.assert(
      fc.property(anyCircuit, (json) => {
        const report = solveReport(circuitOf(json));
        expect(JSON.parse(JSON.stringify(report))).toEqual(report);
      }),
    ));
});

describe("sources taken in groups", { timeout: 60_000 }, () => {
  it("give what their members give one at a time, added", () =>
    fc.assert(
      fc.property(anyCircuit, fc.array(fc.boolean(), { minLength: 4, maxLength: 4 }), (json, sides) => {
        const circuit = circuitOf(json);
        const each = reportOrSkip(json);
        const sources: PartId[] = circuit.parts.filter(isIndependentSource).map(({ id }) => id);
        const groups = [true, false].map((side) => sources.filter((_, index) => sides[index] === side));
        const grouped = solveReport(circuit, { groups: groups.filter((group) => group.length > 0) });
        for (const [index, { total, addends }] of grouped.wanted.entries()) {
          expect(total).toEqual(each.wanted[index]?.total);
          for (const addend of addends) {
            const members = each.wanted[index]?.addends.filter((one) => addend.sources.includes(one.sources[0] ?? ""));
            expect(sum((members ?? []).map(({ value }) => fractionOf(value)))).toEqual(fractionOf(addend.value));
          }
        }
      }),
    ));
});

describe("two nodes seen as a port", { timeout: 60_000 }, () => {
  /** Two nodes of the reference node's section: transformers, which may feed one of their own, come after these parts. */
  const portOf = ({ elements }: CircuitJson, first: number, second: number): { from: string; to: string } => {
    const firstTransformer = elements.findIndex(({ kind }) => kind === "ideal-transformer");
    const before = firstTransformer < 0 ? elements : elements.slice(0, firstTransformer);
    const nodes = [...new Set(before.flatMap((element) => element.nodes))];
    const from = pick(nodes, first);
    return {
      from,
      to: pick(
        nodes.filter((node) => node !== from),
        second,
      ),
    };
  };

  it("has the tableau's resistance, open-circuit voltage and short-circuit current, exactly", () =>
    fc.assert(
      fc.property(anyCircuit, choice, choice, (json, first, second) => {
        reportOrSkip(json);
        const { from, to } = portOf(json, first, second);
        const wanted = ["resistance", "open-circuit-voltage", "short-circuit-current"].map((quantity) => ({
          quantity,
          from,
          to,
        }));
        const [resistance, open, short] = solveReport(circuitOf(pasteable({ ...json, wanted }))).wanted;
        const acting = sourcesOf(json);
        expect(fractionOf(resistance?.total)).toEqual(portResistance(json, from, to));
        expect(fractionOf(open?.total)).toEqual(dcNetwork(json)?.answer(acting).between(from, to));
        const shorted = shortCircuitCurrent(json, from, to, acting);
        expect(short?.total?.exact ?? null).toBe(shorted?.toFraction() ?? null);
      }),
      { numRuns: 40 },
    ));

  it("has Voc = R·Isc where it has both", () =>
    fc.assert(
      fc.property(anyCircuit, choice, choice, (json, first, second) => {
        reportOrSkip(json);
        const { from, to } = portOf(json, first, second);
        const wanted = [
          { quantity: "thevenin", from, to },
          { quantity: "norton", from, to },
        ];
        const [thevenin, norton] = solveReport(circuitOf(pasteable({ ...json, wanted }))).wanted;
        fc.pre(norton?.total !== null);
        const component = (name: string) =>
          fractionOf(
            [...(thevenin?.components ?? []), ...(norton?.components ?? [])].find((c) => c.name === name)?.value,
          );
        expect(component("Rn")).toEqual(component("Rth"));
        expect(exact.multiply(component("Rth"), component("In"))).toEqual(component("Vth"));
      }),
    ));

  it("has a matched load that takes the stated power, and twice or half of it takes less", () =>
    fc.assert(
      fc.property(anyCircuit, choice, choice, (json, first, second) => {
        reportOrSkip(json);
        const ends = portOf(json, first, second);
        const [matched] = solveReport(
          circuitOf(pasteable({ ...json, wanted: [{ quantity: "maximum-power-load", ...ends }] })),
        ).wanted;
        fc.pre(matched !== undefined && matched.total !== null);
        const load = fractionOf(matched.total);
        const most = fractionOf(matched.components.find(({ name }) => name === "Pmax")?.value);
        expect(powerOfLoad(json, ends, load)).toEqual(most);
        for (const factor of ["2", "1/2"]) {
          const other = powerOfLoad(json, ends, exact.multiply(load, exact.fraction(factor)) as Fraction);
          expect(exact.compare(most, other)).toEqual(exact.fraction(exact.isZero(most) ? 0 : 1));
        }
      }),
      { numRuns: 40 },
    ));

  it("is answered alike by the second method, whatever is asked of it", () =>
    fc.assert(
      fc.property(anyCircuit, choice, choice, (json, first, second) => {
        reportOrSkip(json);
        const ends = portOf(json, first, second);
        const wanted = PORT_QUESTIONS.map((quantity) => ({ quantity, ...ends }));
        const report = solveReport(circuitOf(pasteable({ ...json, wanted })));
        expect(report.wanted.filter(({ secondMethod }) => secondMethod?.agrees === false)).toEqual([]);
      }),
    ));
});

const PORT_QUESTIONS = [
  "resistance",
  "open-circuit-voltage",
  "short-circuit-current",
  "thevenin",
  "norton",
  "maximum-power-load",
];

/** Power that a resistor joined to the port absorbs, from the tableau. */
function powerOfLoad(json: CircuitJson, ends: { from: string; to: string }, resistance: Fraction): Fraction {
  const load = { id: "Rload", kind: "resistor", nodes: [ends.from, ends.to], value: `${resistance.toFraction()} Ω` };
  const answer = dcNetwork({ ...json, elements: [...json.elements, load] })?.answer(sourcesOf(json));
  if (answer === undefined) throw new Error("singular with its matched load");
  return exact.multiply(answer.voltage("Rload"), answer.current("Rload")) as Fraction;
}
