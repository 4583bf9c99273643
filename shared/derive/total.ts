import type { Wanted } from "../circuit";
import { isIndependentSource, unreachable } from "../circuit";
import { listed } from "../circuit/problemText";
import type { Answer, SolvedSet } from "../solve";
import { type Amount, addConstants } from "../solve/amount";
import { addComplex, complex } from "../solve/complex";
import { type Writer, writerFor } from "../solve/shown";
import { superposed } from "../solve/superposition";
import { actingOn } from "./acting";
import { type Derived, derivedOf, joinedDerived, sumLine } from "./derived";
import { equivalentLines, matchedLoadLines, wholeLine } from "./equivalent";
import { known, plus } from "./expression";
import { expectedOf } from "./lastHop";
import { type Name, quantityName } from "./names";
import { Notebook } from "./notebook";
import type { Numerals } from "./numerals";
import { powerLines } from "./powerLines";
import { byNodes } from "./route";
import { onSets } from "./sets";
import { nameOfAddend, type Setting, type Subject } from "./subject";

/** The lines that follow the addends: their sum, and what is made of it. */
export function totalOf(setting: Setting, wanted: Wanted, answer: Answer, subjects: readonly Subject[]): Derived {
  const write = writerFor(setting.solution, setting.digits);
  const closing = closingOf(setting, wanted, answer, subjects, write);
  // A lone addend is its own sum, and says so only where nothing else follows.
  const isLone = setting.grouping.length === 1 && isPartition(setting);
  const sums = isLone && closing.length > 0 ? [] : subjects.map((subject) => sumLines(setting, subject));
  return joinedDerived([...sums, ...closing]);
}

function closingOf(
  setting: Setting,
  wanted: Wanted,
  answer: Answer,
  subjects: readonly Subject[],
  write: Writer,
): Derived[] {
  switch (wanted.kind) {
    case "current":
    case "voltage":
    case "open-circuit-voltage":
    case "short-circuit-current":
      return [];
    case "resistance":
    case "impedance":
      return equivalentLines(setting, wanted, quantityName(answer.name));
    case "thevenin":
      return [...equivalentLines(setting, wanted, resistanceName(setting, "th")), wholeLine(answer, write)];
    case "norton":
      return [...equivalentLines(setting, wanted, resistanceName(setting, "n")), wholeLine(answer, write)];
    case "maximum-power-load":
      return [
        ...equivalentLines(setting, wanted, resistanceName(setting, "th")),
        ...matchedLoadLines(setting, answer, wanted, resistanceName(setting, "th")),
      ];
    case "power":
      return [powerLines(setting, wanted.of, answer, subjects, write)];
    default:
      return unreachable(wanted);
  }
}

export function resistanceName({ solution }: Setting, of: string): Name {
  const letter = solution.sinusoids.length > 0 ? "Z" : "R";
  return { text: `${letter}${of}`, latex: `${letter}_{\\mathrm{${of}}}` };
}

/** Whether the sets of sources hold every source once, so that their addends make the total. */
function isPartition({ solution, grouping }: Setting): boolean {
  const sources = solution.circuit.parts.filter(isIndependentSource).map(({ id }) => id);
  const grouped = grouping.flat();
  return grouped.length === sources.length && sources.every((id) => grouped.includes(id));
}

/** Σ of the addends, frequency by frequency, and their sum in time where there are several. */
function sumLines(setting: Setting, subject: Subject): Derived {
  const { digits } = setting;
  const { solution, linear, name } = subject;
  const { circuit } = solution;
  if (!isPartition(setting)) {
    return joinedDerived(
      onSets(solution, null, digits, (set, numerals) =>
        byNodes({ circuit, set, numerals, sources: null, linear, name }),
      ),
    );
  }
  const isSeveral = solution.sinusoids.length + (solution.dc === null ? 0 : 1) > 1;
  const sums = onSets(solution, null, digits, (set, numerals) => sumInSet(setting, subject, set, numerals, isSeveral));
  return joinedDerived(isSeveral ? [...sums, sumInTime(setting, subject)] : sums);
}

function sumInSet<T>(
  setting: Setting,
  { solution, linear, name }: Subject,
  set: SolvedSet<T>,
  numerals: Numerals<T>,
  isSeveral: boolean,
): Derived {
  const { circuit } = solution;
  const total = actingOn(circuit, set, null, numerals);
  const notebook = new Notebook(numerals, set.arithmetic, name.text);
  const unit = linear.kind === "voltage" ? "V" : "A";
  const acting = setting.grouping.flatMap((sources, index) => {
    if (!set.network.sources.some((id) => sources.includes(id))) return [];
    const value = expectedOf(actingOn(circuit, set, sources, numerals), linear);
    return [{ sources, addend: known(nameOfAddend(setting, name, index), value, unit) }];
  });
  if (isSeveral && acting.length < 2) return derivedOf(notebook);
  const expected = expectedOf(total, linear);
  const parts = acting.flatMap(({ sources }) => sources);
  const rate = `${Number(set.stimulus.omega.toPrecision(6))} rad/s`;
  const at = isSeveral ? ` at ${set.stimulus.frequency === null ? "DC" : rate}` : "";
  if (acting.length === 0) {
    notebook.state(
      { rule: { kind: "sum-of-addends" }, sentence: "There is no independent source, so nothing is driven." },
      [{ left: name, right: known(null, set.arithmetic.zero, unit), unit, expected }],
    );
  } else {
    const lone = `${listed(parts)} ${parts.length === 1 ? "is the only source" : "are all the sources"}, so this is the whole.`;
    const sentence = acting.length === 1 ? lone : `Add the addends${at}, each with its sign.`;
    const only = acting[0]?.addend.value as T;
    const right = acting.length === 1 ? known(null, only, unit) : plus(...acting.map(({ addend }) => addend));
    notebook.state({ rule: { kind: "sum-of-addends" }, sentence, parts }, [{ left: name, right, unit, expected }]);
  }
  return derivedOf(notebook);
}

function sumInTime(setting: Setting, { solution, linear, name }: Subject): Derived {
  const { addends, total } = superposed(solution, linear, setting.grouping);
  const nothing = { constant: null, phasors: total.phasors.map((term) => ({ ...term, value: complex(0) })) };
  return sumLine(solution, writerFor(solution, setting.digits), {
    rule: { kind: "sum-in-time" },
    sentence: "Phasors of different frequencies don't add: write each as a function of time, then add.",
    parts: setting.grouping.flat(),
    left: name,
    terms: setting.grouping.map((_, index) => inTime(nameOfAddend(setting, name, index))),
    value: addends.map(({ amount }) => amount).reduce(addAmounts, nothing),
    expected: total,
    unit: linear.kind === "voltage" ? "V" : "A",
  });
}

const inTime = ({ text, latex }: Name): Name => ({ text: `${text}(t)`, latex: `${latex}(t)` });

/** b added to a, which has a phasor of every frequency. */
function addAmounts(a: Amount, b: Amount): Amount {
  const constant = a.constant && b.constant ? addConstants(a.constant, b.constant) : (a.constant ?? b.constant);
  const phasors = a.phasors.map((term) => {
    const same = b.phasors.find(({ omega }) => omega === term.omega);
    return same === undefined ? term : { ...term, value: addComplex(term.value, same.value) };
  });
  return { constant, phasors };
}
