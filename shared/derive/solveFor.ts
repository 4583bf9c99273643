import { listed } from "../circuit/problemText";
import type { UnitSymbol } from "../quantity";
import type { Arithmetic } from "../solve/arithmetic";
import { type Expr, type Form, formOf, known, type QuantityExpr } from "./expression";
import type { Balance, Notebook } from "./notebook";
import type { Numerals } from "./numerals";
import type { MathText } from "./writing";

/**
 * Solves balances for their unknowns and writes the matrix and the values. Null, and a fault, where there are not as many
 * equations as unknowns, or no single solution: the solver has found one for this circuit.
 */
export function solveFor<T>(
  unknowns: ReadonlyMap<string, QuantityExpr<T>>,
  balances: readonly Balance<T>[],
  notebook: Notebook<T>,
): ReadonlyMap<string, Expr<T>> | null {
  if (unknowns.size === 0) return new Map();
  const { arithmetic, numerals } = notebook;
  const keys = [...unknowns.keys()];
  if (balances.length !== keys.length) {
    notebook.fail("number of equations", `${balances.length}`, `${keys.length}`);
    return null;
  }
  const forms = balances.map((balance) => zeroForm(balance, arithmetic));
  const elimination = arithmetic.solve({
    order: keys.length,
    rows: forms.map(({ terms }) => [...terms].map(([key, value]) => [keys.indexOf(key), value] as const)),
    rightHandSides: [new Map(forms.map(({ constant }, row) => [row, arithmetic.negate(constant)]))],
  });
  if (!elimination.ok) {
    notebook.fail("equations", "no single solution", "one solution");
    return null;
  }
  const solved = new Map(
    keys.map((key, column) => {
      const { name, unit } = unknowns.get(key) as QuantityExpr<T>;
      return [key, known(name, elimination.solution(0, [[column, arithmetic.one]]), unit)];
    }),
  );
  const names = [...unknowns.values()].map(({ name }) => name as MathText);
  const matrix = keys.length < 2 ? null : matrixOf(forms, balances, [...unknowns.values()], numerals, arithmetic);
  const listedNames = listed(names.map(({ text }) => text));
  const isApart = forms.every(
    ({ terms }) => [...terms.values()].filter((value) => !arithmetic.isZero(value)).length === 1,
  );
  const sentence =
    keys.length === 1
      ? `Solve for ${listedNames}.`
      : isApart
        ? `${count(keys.length)} equations, each in one of ${listedNames}: solve them one by one.`
        : `${count(keys.length)} equations in ${listedNames}: solve them together.`;
  notebook.state(
    { rule: { kind: "solution", matrix }, sentence },
    keys.map((key) => {
      const { value, unit } = solved.get(key) as QuantityExpr<T>;
      const { name, value: expected } = unknowns.get(key) as QuantityExpr<T>;
      return { left: name as MathText, right: known(null, value, unit), unit, expected };
    }),
  );
  return solved;
}

const WORDS = ["No", "One", "Two", "Three", "Four", "Five", "Six", "Seven", "Eight", "Nine"];

function count(number: number): string {
  return WORDS[number] ?? `${number}`;
}

/** left − right as a linear form. */
function zeroForm<T>({ left, right }: Balance<T>, arithmetic: Arithmetic<T>): Form<T> {
  const [a, b] = [formOf(left, arithmetic), formOf(right, arithmetic)];
  const terms = new Map(a.terms);
  for (const [key, value] of b.terms) {
    terms.set(key, arithmetic.add(terms.get(key) ?? arithmetic.zero, arithmetic.negate(value)));
  }
  return { terms, constant: arithmetic.add(a.constant, arithmetic.negate(b.constant)) };
}

/** A·x = b with units: an entry counts its row's unit over its column's. */
function matrixOf<T>(
  forms: readonly Form<T>[],
  balances: readonly Balance<T>[],
  unknowns: readonly QuantityExpr<T>[],
  numerals: Numerals<T>,
  arithmetic: Arithmetic<T>,
): MathText {
  const rows = forms.map(({ terms, constant }, row) => {
    const rowUnit = (balances[row] as Balance<T>).unit;
    const cells = unknowns.map(({ unknown, unit }) => {
      const value = terms.get(unknown as string) ?? arithmetic.zero;
      if (arithmetic.isZero(value)) return { text: "0", latex: "0" };
      return numerals.figure(value, ratioUnit(rowUnit, unit));
    });
    return { cells, side: numerals.figure(arithmetic.negate(constant), rowUnit) };
  });
  const names = unknowns.map(({ name }) => name as MathText);
  const latexRows = rows.map(({ cells }) => cells.map(({ latex }) => latex).join(" & ")).join(" \\\\ ");
  const column = (entries: readonly string[]): string => `\\begin{bmatrix} ${entries.join(" \\\\ ")} \\end{bmatrix}`;
  return {
    text: `[${rows.map(({ cells }) => cells.map(({ text }) => text).join("  ")).join("; ")}] · [${names.map(({ text }) => text).join("; ")}] = [${rows.map(({ side }) => side.text).join("; ")}]`,
    latex: `\\begin{bmatrix} ${latexRows} \\end{bmatrix} ${column(names.map(({ latex }) => latex))} = ${column(rows.map(({ side }) => side.latex))}`,
  };
}

function ratioUnit(row: UnitSymbol, column: UnitSymbol): UnitSymbol {
  if (row === column) return "1";
  if (row === "A" && column === "V") return "S";
  if (row === "V" && column === "A") return "Ω";
  throw new Error(`ratioUnit: no unit for ${row} over ${column}`);
}
