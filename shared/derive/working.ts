import type { Circuit, PartId, Wanted } from "../circuit";
import { answerOf, eachAlone, type Grouping, type Solution, solveCircuit, unitOf } from "../solve";
import { type Derived, guarded, joined, joinedDerived } from "./derived";
import { Budget, OMITTED } from "./limit";
import type { Derivation, Fault } from "./line";
import { quantityName } from "./names";
import { byBestRoute } from "./route";
import { type SecondMethod, secondMethodsFor } from "./secondMethods";
import { onSets } from "./sets";
import { nameOfAddend, type Setting, type Subject, subjectsOf } from "./subject";
import { totalOf } from "./total";
import type { MathText } from "./writing";

/** The whole working of one wanted quantity. Plain JSON; each line belongs to one addend or to the total. */
export type Working = {
  readonly format: "addend-working";
  readonly version: 1;
  readonly wanted: string;
  readonly kind: Wanted["kind"];
  readonly unit: string;
  readonly addends: readonly AddendWorking[];
  readonly total: Derivation;
  /** Other complete ways to the total, with all sources on; they belong to the total. */
  readonly secondMethods: readonly SecondMethod[];
  /** Lines that were withheld because they did not agree with the solver: ours to mend. */
  readonly faults: readonly Fault[];
};

/** What one set of sources gives: to the wanted quantity, or to each of those that it is made of. */
export type AddendWorking = {
  readonly sources: readonly string[];
  readonly name: MathText;
  readonly derivation: Derivation;
};

export type WorkingOptions = {
  /** Sets of sources to take as addends; each source alone where nothing is said. */
  readonly groups?: Grouping;
  /** Significant figures of what is rounded; 4 where nothing is said. */
  readonly digits?: number;
};

/**
 * The workings of everything that a circuit is asked for, in its order; none without a solution. What `WORKING_LIMIT`
 * leaves out has no lines and says so: see `Derivation.omitted`.
 */
export function workingsOf(circuit: Circuit, options: WorkingOptions = {}): readonly Working[] {
  const solution = solveCircuit(circuit);
  const budget = new Budget(circuit.parts.length);
  return circuit.wanted.flatMap((wanted) => workingOf(solution, wanted, options, budget) ?? []);
}

/** The working of one wanted quantity of a solved circuit; null where it has no answer. Never throws for what people draw. */
export function workingOf(
  solution: Solution,
  wanted: Wanted,
  options: WorkingOptions = {},
  budget = new Budget(solution.circuit.parts.length),
): Working | null {
  const { circuit } = solution;
  const setting: Setting = {
    solution,
    budget,
    grouping: options.groups ?? eachAlone(circuit),
    digits: options.digits ?? 4,
  };
  const answer = answerOf(solution, wanted, setting.grouping);
  if (answer.total === null) return null;
  const subjects = budget.isSpent ? [] : subjectsOf(solution, wanted);
  const hasAddends = wanted.kind !== "resistance" && wanted.kind !== "impedance";
  const faults: Fault[] = [];
  const keep = ({ derivation, faults: found }: Derived): Derivation => {
    faults.push(...found);
    return derivation;
  };
  const addends = setting.grouping.map((sources, index): AddendWorking => {
    const derivations = subjects.map((subject) =>
      keep(budget.spend(() => guarded(subject.name.text, () => addendOf(setting, subject, sources, index)))),
    );
    const first = subjects[0];
    return {
      sources,
      name: first === undefined ? quantityName(answer.name) : nameOfAddend(setting, first.name, index),
      derivation: subjects.length === 0 ? OMITTED.derivation : joined(derivations),
    };
  });
  const total = keep(budget.spend(() => guarded(answer.name, () => totalOf(setting, wanted, answer, subjects))));
  const seconds = subjects.map((subject) => secondMethodsFor(setting, subject));
  for (const second of seconds) faults.push(...second.faults);
  return {
    format: "addend-working",
    version: 1,
    wanted: answer.name,
    kind: wanted.kind,
    unit: unitOf(wanted),
    addends: subjects.length > 0 || (budget.isSpent && hasAddends) ? addends : [],
    total,
    secondMethods: seconds.flatMap(({ methods }) => methods),
    faults,
  };
}

/**
 * The lines for one set of acting sources, or with null those of the total that follow the addends. Null where the
 * circuit has no answer.
 */
export function derive(
  circuit: Circuit,
  wanted: Wanted,
  sources: readonly PartId[] | null,
  digits = 4,
): Derivation | null {
  const groups = sources === null ? eachAlone(circuit) : [sources];
  const working = workingOf(solveCircuit({ ...circuit, wanted: [wanted] }), wanted, { groups, digits });
  if (working === null) return null;
  return sources === null ? working.total : (working.addends[0]?.derivation ?? null);
}

/** The lines of one addend of one subject, over all frequencies at which its sources act. */
function addendOf(setting: Setting, subject: Subject, sources: readonly PartId[], index: number): Derived {
  const { solution, linear, name } = subject;
  const derived = onSets(solution, sources, setting.digits, (set, numerals) =>
    byBestRoute({
      circuit: solution.circuit,
      set,
      numerals,
      sources,
      linear,
      name: nameOfAddend(setting, name, index),
    }),
  );
  return joinedDerived(derived);
}
