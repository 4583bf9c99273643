import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type EquationPlace, equationPlace, judgeEquation } from "../../../shared/check/equations";
import { type Circuit, partId } from "../../../shared/circuit";
import { workingsOf, workingText } from "../../../shared/derive";
import { EXAMPLES } from "../../../shared/examples";
import { eachAlone } from "../../../shared/solve";
import { GOLDEN_CIRCUITS } from "../../derive/goldenCircuits";
import { type CircuitJson, circuits, RESISTORS_AND_SOURCES } from "../../generators/circuits";
import { circuitOf } from "../../solve/solved";
import { processorTime } from "../processorTime";

const RULES = { figures: 3, seed: 1 };

function placeOf(circuit: Circuit, acting: readonly string[] | null = null): EquationPlace | null {
  return equationPlace(circuit, eachAlone(circuit), acting?.map(partId) ?? null);
}

type Leaving = { readonly sign: "+" | "−"; readonly part: string };

/** Kirchhoff's current law at each node, written from the drawing: what leaves by parts counted from there, less what comes. */
function currentLaws({
  elements,
}: CircuitJson): readonly (readonly { readonly sign: "+" | "−"; readonly part: string }[])[] {
  const nodes = [...new Set(elements.flatMap((element) => element.nodes))];
  return nodes.map((node) =>
    elements.flatMap(({ id, nodes: [plus, minus] }): Leaving[] => {
      if (plus === minus) return [];
      if (plus === node) return [{ sign: "+", part: id }];
      return minus === node ? [{ sign: "−", part: id }] : [];
    }),
  );
}

const written = (terms: readonly Leaving[]): string => terms.map(({ sign, part }) => `${sign} I(${part})`).join(" ");

describe("on random circuits", { timeout: 120_000 }, () => {
  const plain = circuits({ ...RESISTORS_AND_SOURCES, dependentSources: true }, 6);

  it("Kirchhoff's current law is true at every node, for all sources and for each alone", () =>
    fc.assert(
      fc.property(plain, (json) => {
        const circuit = circuitOf(json);
        for (const acting of [null, ...eachAlone(circuit)]) {
          const place = placeOf(circuit, acting);
          if (place === null) return;
          for (const terms of currentLaws(json)) {
            if (terms.length < 2 || terms.length > 18) continue;
            expect([written(terms), judgeEquation(`${written(terms)} = 0`, place, RULES)]).toEqual([
              written(terms),
              { outcome: "true" },
            ]);
          }
        }
      }),
      { numRuns: 60 },
    ));

  it("it is false with a term turned, and that term is named where no other serves as well", () =>
    fc.assert(
      fc.property(plain, fc.nat(), fc.nat(), (json, which, at) => {
        const circuit = circuitOf(json);
        const place = placeOf(circuit);
        const laws = currentLaws(json).filter(({ length }) => length > 1 && length < 18);
        const terms = laws[which % laws.length];
        if (place === null || terms === undefined) return;
        const i = at % terms.length;
        const turned = terms.map((term, k) =>
          k === i ? ({ ...term, sign: term.sign === "+" ? "−" : "+" } as const) : term,
        );
        const judgement = judgeEquation(`${written(turned)} = 0`, place, RULES);
        const isDead = judgeEquation(`I(${terms[i]?.part}) = 0`, place, RULES).outcome === "true";
        expect(judgement.outcome).toBe(isDead ? "true" : "false");
        if (judgement.outcome === "false" && judgement.diagnosis.code === "termTurned") {
          expect(judgement.diagnosis.term).toBe(`I(${terms[i]?.part})`);
        }
      }),
      { numRuns: 100 },
    ));
});

describe("the current laws of worked lines", () => {
  /** The equations behind `Kirchhoff's current law at node`, in symbols and in numbers. */
  const linesOf = (text: string): readonly string[] =>
    [...text.matchAll(/Kirchhoff's current law at node [^\n]*add up to 0\.\n\s*([^\n]*)/g)].flatMap(([, line = ""]) =>
      line.split(/: {2}/),
    );
  const all = [
    ...EXAMPLES.map(({ id, json }) => ({ id, json, groups: undefined })),
    ...GOLDEN_CIRCUITS.map(({ id, json, groups }) => ({ id, json, groups })),
  ];

  it("are true of the circuit, as they stand there", () => {
    let judged = 0;
    for (const { json, groups } of all) {
      const circuit = circuitOf(json as never);
      for (const working of workingsOf(circuit, groups === undefined ? {} : { groups })) {
        const text = workingText(working);
        // The lines of the second method are about the whole circuit.
        const nodal = /second method, nodal analysis, agrees([\s\S]*?)(?:second method, mesh|$)/.exec(text)?.[1] ?? "";
        const place = placeOf(circuit);
        // Worked one frequency at a time, so that a line is not about the whole.
        if (place === null || place.omega === null) continue;
        for (const line of linesOf(nodal)) {
          if (line.length > 200) continue;
          judged += 1;
          expect([line, judgeEquation(line, place, RULES)]).toEqual([line, { outcome: "true" }]);
        }
      }
    }
    expect(judged).toBeGreaterThan(40);
  });
});

describe("random strings as equations", () => {
  const pieces = (
    "Va V_a V(a) V(a,b) I(R1) I_R2 Ix Ix′ Ix'' Z(C1) k(G1) n(T1) R1 V1 0 1 2.73 5mA 10V 4k = = ≈ + - * / ^2 ∥ ( ) [ ] " +
    "∠45° cos(1000t) sqrt( abs( conj( j t π , . ; # constructor __proto__ V( I( U(R1 I() V(a,) ′ ″ ⁽⁴⁾"
  ).split(" ");

  it("are each judged or refused, quickly, with a place in the text", { timeout: 120_000 }, () => {
    const circuit = circuitOf(EXAMPLES[0]?.json as never);
    const place = placeOf(circuit);
    if (place === null) throw new Error("the first example has a solution");
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...pieces), { maxLength: 25 }), fc.constantFrom("", " "), (chosen, glue) => {
        const text = chosen.join(glue);
        const start = processorTime();
        const judgement = judgeEquation(text, place, RULES);
        // No reading of 200 characters comes near so much time of the processor.
        expect(processorTime() - start).toBeLessThan(2000);
        if (judgement.outcome !== "unread") return;
        expect(judgement.at).toBeGreaterThanOrEqual(0);
        expect(judgement.at).toBeLessThanOrEqual(text.length);
      }),
      { numRuns: 20_000 },
    );
  });
});
