import { listed } from "../circuit/problemText";
import type { BranchIndex } from "../solve/network";
import { type Acting, branchOf, endsOf, joinedName } from "./acting";
import { known, over, times, unknown } from "./expression";
import type { Sketch, SketchElement } from "./line";
import { impedanceName, symbolOf } from "./names";
import type { Notebook, Statement } from "./notebook";
import { impedanceOf, partOf, sourceValueOf } from "./quantities";

/** The lines with which every addend begins: what is zeroed, what is open or short at DC, what is left out. */
export function writeOpening<T>(acting: Acting<T>, notebook: Notebook<T>): void {
  writeZeroing(acting, notebook);
  writeSteadyState(acting, notebook);
  writeDropped(acting, notebook);
}

/** Only now, where numbers are to be put in: phasors of the sources and impedances at their frequency. */
export function writePhasors<T>(acting: Acting<T>, notebook: Notebook<T>, used: readonly BranchIndex[]): void {
  const { omega, frequency } = acting.set.stimulus;
  if (frequency === null) return;
  const reactive = used.filter((i) => ["capacitor", "inductor"].includes(partOf(acting, i).kind));
  const statements = reactive.map((i) => impedanceStatement(acting, i));
  if (statements.length === 0) return;
  const parts = reactive.map((i) => branchOf(acting, i).part);
  const rate = `${Number(omega.toPrecision(6))} rad/s`;
  notebook.state(
    { rule: { kind: "phasors" }, sentence: `Work with phasors and impedances at ω = ${rate}.`, parts },
    statements,
  );
}

function impedanceStatement<T>(acting: Acting<T>, i: BranchIndex): Statement<T> {
  const part = partOf(acting, i);
  const { arithmetic } = acting.set;
  const law = acting.laws[i];
  if (law?.kind !== "admittance") throw new Error("impedanceStatement: not an impedance");
  const { part: id } = branchOf(acting, i);
  // ωL and ωC carry the unit; j stands before them as a factor of its own.
  const turn = acting.numerals.imaginary;
  if (turn === null) throw new Error("impedanceStatement: real numbers have no impedances");
  const size = arithmetic.multiply(law.impedance, arithmetic.divide(arithmetic.one, turn));
  const left = impedanceName(id);
  const symbol = symbolOf(id);
  const isCapacitor = part.kind === "capacitor";
  // As a symbol also where numbers are put in.
  const imaginary = unknown("j", { text: "j", latex: "\\mathrm{j}" }, turn, "1");
  if (!isCapacitor) {
    const reactance = known({ text: `ω ${symbol.text}`, latex: `\\omega ${symbol.latex}` }, size, "Ω");
    return { left, right: times(imaginary, reactance), unit: "Ω", expected: law.impedance };
  }
  const susceptance = arithmetic.negate(arithmetic.divide(arithmetic.one, size));
  const under = known({ text: `ω ${symbol.text}`, latex: `\\omega ${symbol.latex}` }, susceptance, "S");
  return {
    left,
    right: over(known(null, arithmetic.one, "1"), times(imaginary, under)),
    unit: "Ω",
    expected: law.impedance,
  };
}

function writeZeroing<T>(acting: Acting<T>, notebook: Notebook<T>): void {
  const { zeroed } = acting;
  if (zeroed.length === 0) return;
  const shorts = zeroed.filter(({ becomes }) => becomes === "short").map(({ source }) => source);
  const opens = zeroed.filter(({ becomes }) => becomes === "open").map(({ source }) => source);
  const said = [
    ...(shorts.length === 0
      ? []
      : [`${listed(shorts)} ${shorts.length === 1 ? "becomes a short" : "become shorts"} (0 V)`]),
    ...(opens.length === 0
      ? []
      : [`${listed(opens)} ${opens.length === 1 ? "becomes an open" : "become opens"} (0 A)`]),
  ];
  const alone = acting.on.length === 0 ? "Zero every independent source" : `Let ${listed(acting.on)} act alone`;
  const only = acting.on.length > 1 ? alone.replace(" alone", " and zero the rest") : alone;
  notebook.state(
    {
      rule: { kind: "zero-sources", zeroed },
      sentence: `${only}: ${listed(said)}.`,
      parts: zeroed.map(({ source }) => source),
    },
    [],
    sketchOf(acting),
  );
}

function writeSteadyState<T>(acting: Acting<T>, notebook: Notebook<T>): void {
  if (acting.set.stimulus.frequency !== null) return;
  const having = (kind: "capacitor" | "inductor"): string[] =>
    acting.circuit.parts.filter((part) => part.kind === kind).map(({ id }) => id);
  const [opens, shorts] = [having("capacitor"), having("inductor")];
  if (opens.length + shorts.length === 0) return;
  const said = [
    ...(opens.length === 0 ? [] : [`${listed(opens)} ${opens.length === 1 ? "carries" : "carry"} no current (open)`]),
    ...(shorts.length === 0 ? [] : [`${listed(shorts)} ${shorts.length === 1 ? "has" : "have"} no voltage (short)`]),
  ];
  notebook.state(
    {
      rule: { kind: "steady-state", opens, shorts },
      sentence: `With constant sources, in the steady state, ${listed(said)}.`,
      parts: [...opens, ...shorts],
    },
    [],
    sketchOf(acting),
  );
}

function writeDropped<T>(acting: Acting<T>, notebook: Notebook<T>): void {
  const name = (i: BranchIndex): string => branchOf(acting, i).part;
  const [shorted, idle] = [acting.shorted.map(name), acting.idle.map(name)];
  if (shorted.length + idle.length === 0) return;
  const said = [
    ...(shorted.length === 0
      ? []
      : [
          `${listed(shorted)} ${shorted.length === 1 ? "stands" : "stand"} across a short and ${shorted.length === 1 ? "has" : "have"} no voltage`,
        ]),
    ...(idle.length === 0
      ? []
      : [
          `${listed(idle)} ${idle.length === 1 ? "lies" : "lie"} on no closed path from a source and ${idle.length === 1 ? "carries" : "carry"} no current`,
        ]),
  ];
  const out = shorted.length + idle.length === 1 ? "leave it out" : "leave them out";
  notebook.state(
    { rule: { kind: "drop", shorted, idle }, sentence: `${listed(said)}: ${out}.`, parts: [...shorted, ...idle] },
    [],
    sketchOf(acting),
  );
}

/** The acting circuit as it stands, part by part. */
export function sketchOf<T>(acting: Acting<T>): Sketch {
  return { elements: acting.live.map((i) => sketchElement(acting, i)) };
}

export function sketchElement<T>(acting: Acting<T>, i: BranchIndex): SketchElement {
  const { plus, minus } = endsOf(acting, i);
  const part = partOf(acting, i);
  const nodes = [joinedName(acting, plus), joinedName(acting, minus)];
  return { id: part.id, kind: part.kind, nodes, value: valueText(acting, i), of: [part.id] };
}

function valueText<T>(acting: Acting<T>, i: BranchIndex): string | null {
  const kind = acting.laws[i]?.kind;
  if (kind !== "admittance" && kind !== "voltage" && kind !== "current") return null;
  const expr = kind === "admittance" ? impedanceOf(acting, i) : sourceValueOf(acting, i);
  return expr.kind === "quantity" ? acting.numerals.figure(expr.value, expr.unit).text : null;
}
