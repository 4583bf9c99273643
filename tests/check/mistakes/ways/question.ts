import { type Branch, branchOf, isSource } from "./branch";
import { type Complex, plus, real, scaled, sizeOf } from "./complexNumber";
import { type NodeLaw, solvedAt } from "./solved";

/** What is asked of a circuit. A current runs from the first node of its branch to the second, or backward. */
export type Asked =
  | { readonly quantity: "current"; readonly through: string; readonly isBackward: boolean }
  | { readonly quantity: "voltage" | "open-circuit-voltage" | "thevenin"; readonly from: string; readonly to: string }
  | { readonly quantity: "power"; readonly through: string }
  | { readonly quantity: "resistance" | "impedance"; readonly from: string; readonly to: string };

/** A question about one line: the addend of one source, that of a group, the total, or what is seen from two nodes. */
export type Question = {
  readonly branches: readonly Branch[];
  readonly asked: Asked;
  /** The sets of sources that the total is the sum of. */
  readonly grouping: readonly (readonly string[])[];
  /** The sources of the addend; null for the total and for what is seen from two nodes. */
  readonly acting: readonly string[] | null;
  readonly measure: "peak" | "rms";
};

/** A value by angular frequency, with the constant at 0. Phasors are peak values. */
export type Value = ReadonlyMap<number, Complex>;

export type Line = "addend" | "group" | "total" | "equivalent";

export function lineOf({ acting, asked }: Question): Line {
  if (acting !== null) return acting.length > 1 ? "group" : "addend";
  return asked.quantity === "resistance" || asked.quantity === "impedance" ? "equivalent" : "total";
}

export const sourcesOf = (branches: readonly Branch[]): string[] => branches.filter(isSource).map(({ id }) => id);

/** The sources that act on the line of a question. */
export function actingOn({ acting, branches }: Pick<Question, "acting" | "branches">): readonly string[] {
  return acting ?? sourcesOf(branches);
}

/** The angular frequency of a source; 0 for a constant one. */
export function omegaOf(branches: readonly Branch[], id: string): number {
  const { law } = branchOf(branches, id);
  return law.kind === "voltage-source" || law.kind === "current-source" ? law.wave.omega : 0;
}

/** What these branches give, with some sources on; null where they give nothing. */
export function valueIn(branches: readonly Branch[], asked: Asked, on: readonly string[], law?: NodeLaw): Value | null {
  if (asked.quantity === "resistance" || asked.quantity === "impedance") return seenFrom(branches, asked);
  const omegas = [...new Set(on.map((id) => omegaOf(branches, id)))];
  const value = new Map<number, Complex>();
  for (const omega of omegas) {
    const solved = solvedAt(branches, omega, on, law);
    if (solved === null) return null;
    switch (asked.quantity) {
      case "current":
        value.set(omega, scaled(solved.current(asked.through), asked.isBackward ? -1 : 1));
        break;
      case "power": {
        // The mean over a period, of phasors that are peak values.
        const { re, im } = solved.current(asked.through);
        const across = solved.between(...endsOf(branches, asked.through));
        value.set(0, real((omega === 0 ? 1 : 0.5) * (across.re * re + across.im * im)));
        break;
      }
      default:
        value.set(omega, solved.between(asked.from, asked.to));
    }
  }
  return value;
}

function endsOf(branches: readonly Branch[], id: string): [string, string] {
  const { from, to } = branchOf(branches, id);
  return [from, to];
}

/** The voltage between two nodes with 1 A pushed in at the first, all sources at 0: an impedance at their frequency. */
function seenFrom(branches: readonly Branch[], { from, to }: { from: string; to: string }): Value | null {
  const [omega = 0] = sourcesOf(branches).map((id) => omegaOf(branches, id));
  const test: Branch = {
    id: "1 A",
    from: to,
    to: from,
    law: { kind: "current-source", wave: { peak: 1, degrees: 0, omega } },
  };
  const solved = solvedAt([...branches, test], omega, [test.id]);
  return solved && new Map([[omega, solved.between(from, to)]]);
}

export function rightValueOf({ branches, asked, acting }: Question): Value | null {
  return valueIn(branches, asked, actingOn({ branches, acting }));
}

/** The addends of a question's total, in the order of its grouping; null where one of them is nothing or unknown. */
export function addendsOf({ branches, asked, grouping }: Question): readonly Value[] | null {
  const values = grouping.flatMap((sources) => valueIn(branches, asked, sources) ?? []);
  return values.length === grouping.length ? values : null;
}

export function sumOf(values: readonly Value[]): Value {
  const sum = new Map<number, Complex>();
  for (const value of values) for (const [omega, x] of value) sum.set(omega, plus(sum.get(omega) ?? real(0), x));
  return sum;
}

export function timesOf(value: Value, factor: number): Value {
  return mapped(value, (x) => scaled(x, factor));
}

export function mapped(value: Value, change: (x: Complex) => Complex): Value {
  return new Map([...value].map(([omega, x]) => [omega, change(x)]));
}

/** The one number of a value; for several frequencies the first. */
export function onlyOf(value: Value): Complex {
  return [...value.values()][0] ?? real(0);
}

/** How far apart two values are, as a share of the second. */
export function apart(a: Value, b: Value): number {
  const omegas = new Set([...a.keys(), ...b.keys()]);
  const size = Math.max(...[...b.values()].map(sizeOf), Number.MIN_VALUE);
  const at = (value: Value, omega: number): Complex => value.get(omega) ?? real(0);
  return Math.max(...[...omegas].map((omega) => sizeOf(plus(at(a, omega), scaled(at(b, omega), -1))) / size));
}
