import type { Part, PartId } from "../circuit";
import type { Answer, SolvedSet } from "../solve";
import type { Writer } from "../solve/shown";
import { actingOn } from "./acting";
import { type Derived, derivedOf, joinedDerived, sumLine } from "./derived";
import { type Expr, known, sizeOf, square, times } from "./expression";
import { expectedOf } from "./lastHop";
import { type Name, quantityName, symbolOf } from "./names";
import { Notebook } from "./notebook";
import type { Numerals } from "./numerals";
import { placesOf } from "./quantities";
import { onSets } from "./sets";
import type { Setting, Subject } from "./subject";

/**
 * Power from total voltage and current, never from addends: a line for each frequency, and their sum, since means of
 * different frequencies do add.
 */
export function powerLines(
  setting: Setting,
  id: PartId,
  answer: Answer,
  subjects: readonly Subject[],
  write: Writer,
): Derived {
  const { solution, digits } = setting;
  const part = solution.circuit.parts.find((each) => each.id === id);
  if (part === undefined || answer.total === null) throw new Error(`powerLines: ${id} has no power`);
  const name = quantityName(answer.name);
  const count = solution.sinusoids.length + (solution.dc === null ? 0 : 1);
  const each = onSets(solution, null, digits, (set, numerals) =>
    powerInSet(setting, part, subjects, set, numerals, count === 1 ? name : powerNameAt(name, set)),
  );
  if (count === 1) return joinedDerived(each);
  const value = each.reduce((sum, { derivation }) => sum + (derivation.result?.decimal ?? Number.NaN), 0);
  const sum = sumLine(solution, write, {
    rule: { kind: "power" },
    sentence: "Powers of different frequencies add up on average, and only those.",
    parts: [id],
    left: name,
    terms: onSets(solution, null, digits, (set) => powerNameAt(name, set)),
    value: { constant: { numbers: "doubles", value }, phasors: [] },
    expected: answer.total,
    unit: "W",
  });
  return joinedDerived([...each, sum]);
}

function powerNameAt<T>(name: Name, { stimulus }: SolvedSet<T>): Name {
  const at = stimulus.frequency === null ? "DC" : `${Number(stimulus.omega.toPrecision(6))} rad/s`;
  return { text: `${name.text} at ${at}`, latex: `${name.latex}\\big|_{\\text{${at}}}` };
}

function powerInSet<T>(
  setting: Setting,
  part: Part,
  subjects: readonly Subject[],
  set: SolvedSet<T>,
  numerals: Numerals<T>,
  name: Name,
): Derived {
  const notebook = new Notebook(numerals, set.arithmetic, name.text);
  const total = actingOn(setting.solution.circuit, set, null, numerals);
  const { arithmetic } = set;
  const expected = placesOf(total, part.id).reduce(
    (sum, i) => arithmetic.add(sum, numerals.power(set.total.branchVoltage(i), set.total.branchCurrent(i))),
    arithmetic.zero,
  );
  const formula = formulaOf(part, subjects, (subject) => expectedOf(total, subject.linear), set, numerals);
  const mean = numerals.isPhasor ? "Mean power" : "Power";
  const sentence =
    formula === null
      ? `${part.id} ${numerals.isPhasor ? "takes no power on average" : "takes no power"}.`
      : set.network.sources.length > 1
        ? `${mean} is no sum of addends: it takes the total ${subjects.length > 1 ? "voltage and current" : subjects[0]?.linear.kind}.`
        : `${mean} absorbed by ${part.id}.`;
  notebook.state({ rule: { kind: "power" }, sentence, parts: [part.id] }, [
    { left: name, right: formula ?? known(null, arithmetic.zero, "W"), unit: "W", expected },
  ]);
  return derivedOf(notebook);
}

/** R·I², or V·I; for phasors R·|I|² and Re(V·I*), halved where they count peaks. Null for what takes none. */
function formulaOf<T>(
  part: Part,
  subjects: readonly Subject[],
  totalOf: (subject: Subject) => T,
  set: SolvedSet<T>,
  numerals: Numerals<T>,
): Expr<T> | null {
  const [first, second] = subjects;
  if (first === undefined) return null;
  const { arithmetic } = set;
  const half = arithmetic.divide(arithmetic.one, arithmetic.add(arithmetic.one, arithmetic.one));
  const factors: Expr<T>[] = numerals.meanFactor === 1 ? [] : [known({ text: "½", latex: "\\tfrac12" }, half, "1")];
  const symbol = symbolOf(part.id);
  if (part.kind === "resistor") {
    const resistance = known(symbol, arithmetic.fromRational(part.resistance), "Ω");
    const current = known(first.name, totalOf(first), "A");
    return times(...factors, resistance, square(numerals.isPhasor ? sizeOf(current, numerals) : current));
  }
  const place = set.network.branches.findIndex((branch) => branch.part === part.id);
  const voltage = set.total.branchVoltage(place);
  const current = set.total.branchCurrent(place);
  const isVoltage = part.kind === "voltage-source";
  const isCurrent = part.kind === "current-source";
  const voltageName = isVoltage ? symbol : first.name;
  const currentName = isVoltage ? first.name : isCurrent ? symbol : (second ?? first).name;
  if (!numerals.isPhasor) return times(known(voltageName, voltage, "V"), known(currentName, current, "A"));
  const product: Name = {
    text: `Re(${voltageName.text} · ${currentName.text}*)`,
    latex: `\\operatorname{Re}\\left(${voltageName.latex} \\cdot ${currentName.latex}^{*}\\right)`,
  };
  const whole = arithmetic.divide(numerals.power(voltage, current), numerals.meanFactor === 1 ? arithmetic.one : half);
  return times(...factors, known(product, whole, "W"));
}
