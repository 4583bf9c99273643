import type { UnitSymbol } from "../quantity";
import type { Solution } from "../solve";
import type { Amount } from "../solve/amount";
import { agree } from "../solve/secondMethod";
import type { Writer } from "../solve/shown";
import type { Derivation, Equation, Fault, Line, Rule, Sketch } from "./line";
import type { Name } from "./names";
import type { Notebook } from "./notebook";

/** A derivation, and the lines of it that did not come out as the solver has them. */
export type Derived = { readonly derivation: Derivation; readonly faults: readonly Fault[] };

/** In place of lines that don't agree with the solver, or could not be made. */
const WITHHELD: Derivation = { lines: [], sketches: [], result: null, omitted: "failed" };

/** What a notebook holds; a fault in it withholds all of it, since the other lines may build on the wrong one. */
export function derivedOf<T>(notebook: Notebook<T>): Derived {
  const { faults } = notebook;
  return { derivation: faults.length === 0 ? notebook.derivation() : WITHHELD, faults };
}

/** Derivations one after the other; the result is the last one's. One that was left out leaves out the whole. */
export function joined(derivations: readonly Derivation[]): Derivation {
  const left = derivations.find(({ omitted }) => omitted !== null);
  if (left !== undefined) return left;
  const lines: Line[] = [];
  const sketches: Sketch[] = [];
  for (const derivation of derivations) {
    const base = sketches.length;
    lines.push(
      ...derivation.lines.map((line) => (line.sketch === null ? line : { ...line, sketch: line.sketch + base })),
    );
    sketches.push(...derivation.sketches);
  }
  return { lines, sketches, result: derivations.at(-1)?.result ?? null, omitted: null };
}

export function joinedDerived(derived: readonly Derived[]): Derived {
  return {
    derivation: joined(derived.map(({ derivation }) => derivation)),
    faults: derived.flatMap(({ faults }) => faults),
  };
}

/** What is derived; where that throws, a bug of ours is a fault like any other and takes nothing else along. */
export function guarded(where: string, derive: () => Derived): Derived {
  try {
    return derive();
  } catch (error) {
    const got = error instanceof Error ? `${error.name}: ${error.message}` : String(error);
    return { derivation: WITHHELD, faults: [{ where, line: "all", got, expected: "lines" }] };
  }
}

/** A line that stands by itself, on the circuit as it is. */
export function soleLine(
  line: Pick<Line, "rule" | "sentence" | "parts"> & Partial<Pick<Line, "equations" | "nodes">>,
  faults: readonly Fault[] = [],
): Derived {
  if (faults.length > 0) return { derivation: WITHHELD, faults };
  const equations = line.equations ?? [];
  return {
    derivation: {
      lines: [{ ...line, equations, nodes: line.nodes ?? [], sketch: null }],
      sketches: [],
      result: equations.at(-1)?.result ?? null,
      omitted: null,
    },
    faults,
  };
}

/** A sum over frequencies: `value` is worked out from the terms, `expected` is the solver's. */
export type SumOverFrequencies = {
  readonly rule: Rule;
  readonly sentence: string;
  readonly parts: readonly string[];
  readonly left: Name;
  readonly terms: readonly Name[];
  readonly value: Amount;
  readonly expected: Amount;
  readonly unit: UnitSymbol;
};

/** The line of such a sum, held against the solver like every other. */
export function sumLine(solution: Solution, write: Writer, sum: SumOverFrequencies): Derived {
  const { rule, sentence, parts, left, terms, value, expected, unit } = sum;
  const result = write(value, unit);
  const equation: Equation = {
    left,
    symbols: {
      text: terms.map(({ text }) => text).join(" + "),
      latex: terms.map(({ latex }) => latex).join(" + "),
    },
    numbers: null,
    numbersMark: "=",
    result,
    unit,
  };
  const isRight = agree(solution, value, expected, unit);
  const fault = { where: left.text, line: left.text, got: result.text, expected: write(expected, unit).text };
  return soleLine({ rule, sentence, parts, equations: [equation] }, isRight ? [] : [fault]);
}
