import { listed } from "../circuit/problemText";
import type { BranchIndex, NodeIndex } from "../solve/network";
import { type Acting, branchOf, joinedName } from "./acting";
import { type Expr, known, over, plus, times } from "./expression";
import type { Fact, Step } from "./facts";
import { combinedName, currentName, type Name } from "./names";
import { pieceImpedance } from "./portImpedance";
import { type Port, withInner } from "./ports";
import { impedanceOf, pairName, voltageBetween } from "./quantities";

/** Keys of what is known of a piece: its voltage, its current, its impedance written out, and as one symbol. */
export const voltageKey = (from: NodeIndex, to: NodeIndex): string => `V ${from} ${to}`;
export const currentKey = (port: Port): string => `I ${port.id}`;
export const openKey = (port: Port): string => `r ${port.id}`;
export const closedKey = (port: Port): string => `R ${port.id}`;

/** A line costs one; where two ways take the same number, the easier comes first: two branches rather than many. */
const COST = { parallel: 1, series: 0.98, division: 1, conductances: 1.3, ohm: 1.01, law: 1.04 } as const;

export function voltageOf(port: Port): string {
  return port.image === "voltage" || port.image === "row" ? `W ${port.id}` : voltageKey(port.from, port.to);
}

/** The facts and steps of a piece and all that it is made of. */
export function portSteps<T>(
  acting: Acting<T>,
  root: Port,
  facts: Map<string, Fact<T>>,
  wanted: BranchIndex | null = null,
): Step<T>[] {
  const ports = withInner(root);
  for (const port of ports) addFacts(acting, port, facts, wanted);
  return ports.flatMap((port) => [
    ...impedanceSteps(acting, port),
    ...(port.original === null ? ohmSteps(acting, port) : []),
    ...(port.original === null && port.make.kind === "series" ? seriesSteps(acting, port, port.make.of, facts) : []),
    ...(port.original === null && port.make.kind === "parallel"
      ? parallelSteps(acting, port, port.make.of, facts)
      : []),
  ]);
}

function addFacts<T>(acting: Acting<T>, port: Port, facts: Map<string, Fact<T>>, wanted: BranchIndex | null): void {
  addPair(acting, port.from, port.to, port, facts);
  facts.set(currentKey(port), {
    key: currentKey(port),
    name: currentOfPort(acting, port, wanted),
    unit: "A",
    expected: () => solvedCurrent(acting, port),
  });
  facts.set(closedKey(port), {
    key: closedKey(port),
    name: port.name,
    unit: "Ω",
    expected: () => expectedImpedance(acting, port),
  });
}

function addPair<T>(acting: Acting<T>, from: NodeIndex, to: NodeIndex, port: Port, facts: Map<string, Fact<T>>): void {
  const key = voltageOf(port);
  if (facts.has(key)) return;
  const isImage = port.image === "voltage" || port.image === "row";
  const name: Name = isImage
    ? { text: `V(${port.name.text})`, latex: `V_{${port.name.latex}}` }
    : pairName(acting, from, to);
  const { multiply } = acting.set.arithmetic;
  facts.set(key, {
    key,
    name,
    unit: "V",
    expected: () =>
      isImage ? multiply(pieceImpedance(acting, port), solvedCurrent(acting, port)) : voltageBetween(acting, from, to),
  });
}

/** A row's current by one of its parts, that which is wanted if it is there. */
function currentOfPort<T>(acting: Acting<T>, port: Port, wanted: BranchIndex | null): Name {
  if (port.make.kind === "branch") return currentName(branchOf(acting, port.make.branch).part);
  if (port.make.kind === "series") {
    const branches = port.make.of.flatMap(({ make, parts }) => (make.kind === "branch" ? parts : []));
    const chosen = branches.find((i) => i === wanted) ?? branches[0];
    if (chosen !== undefined) return currentName(branchOf(acting, chosen).part);
  }
  return currentName(port.name.text);
}

/** The solver's current along a piece. An image of a source transformation has what Ohm's law gives it. */
export function solvedCurrent<T>(acting: Acting<T>, port: Port): T {
  const { add, divide, negate, zero } = acting.set.arithmetic;
  if (port.image === "current") {
    return divide(voltageBetween(acting, port.from, port.to), pieceImpedance(acting, port));
  }
  const { make } = port;
  if (make.kind === "branch") {
    const current = acting.response.branchCurrent(make.branch);
    return make.sign === 1 ? current : negate(current);
  }
  if (make.kind === "parallel") return make.of.reduce((sum, each) => add(sum, solvedCurrent(acting, each)), zero);
  const real = make.of.find(({ image }) => image === "none") ?? (make.of[0] as Port);
  return solvedCurrent(acting, real);
}

/** Voltage over current as the solver has them; for images, and where both are 0, the solver's for the piece alone. */
function expectedImpedance<T>(acting: Acting<T>, port: Port): T {
  const { divide, isZero } = acting.set.arithmetic;
  const isPlain = port.image === "none" && withInner(port).every(({ image }) => image === "none");
  const current = isPlain ? solvedCurrent(acting, port) : acting.set.arithmetic.zero;
  if (isZero(current)) return pieceImpedance(acting, port);
  return divide(voltageBetween(acting, port.from, port.to), current);
}

/** What an image's impedance is called and how it is found: as that of the piece itself. */
export function gatheredSteps<T>(acting: Acting<T>, port: Port, facts: Map<string, Fact<T>>): Step<T>[] {
  facts.set(closedKey(port), {
    key: closedKey(port),
    name: port.name,
    unit: "Ω",
    expected: () => pieceImpedance(acting, port),
  });
  return impedanceSteps(acting, port);
}

function impedanceSteps<T>(acting: Acting<T>, port: Port): Step<T>[] {
  const { make, original } = port;
  const [open, closed] = [openKey(port), closedKey(port)];
  if (original !== null) return [sameStep(open, openKey(original)), sameStep(closed, closedKey(original))];
  if (make.kind === "branch") {
    const leaf = (): Expr<T> => impedanceOf(acting, make.branch);
    return [
      { kind: "same", head: open, body: [], cost: 0, of: leaf, branch: make.branch },
      { kind: "same", head: closed, body: [], cost: 0, of: leaf, branch: make.branch },
    ];
  }
  const names = make.of.map((inner) => (make.kind === "series" ? labelOf(inner) : inner.name.text));
  const parts = partsOf(acting, port);
  if (make.kind === "series") {
    const body = make.of.map(openKey);
    return [
      { kind: "same", head: open, body, cost: 0, of: (given) => plus(...given) },
      {
        kind: "line",
        head: closed,
        body,
        cost: COST.series,
        infer: (given) => ({
          rule: { kind: "series" },
          right: plus(...given),
          sentence: `${listed(names)} carry one current: in series, they add.`,
          parts,
          nodes: endNodes(acting, port),
          combines: port.id,
        }),
      },
    ];
  }
  return [
    { kind: "same", head: open, body: [closed], cost: 0, of: ([own]) => own as Expr<T> },
    {
      kind: "line",
      head: closed,
      body: make.of.map(closedKey),
      cost: COST.parallel,
      infer: (given) => ({
        rule: { kind: "parallel" },
        right: inParallel(given, acting),
        sentence: `${listed(names)} join the same two nodes: in parallel.`,
        parts,
        nodes: endNodes(acting, port),
        combines: port.id,
      }),
    },
  ];
}

/** R₁R₂/(R₁ + R₂), or 1/(1/R₁ + 1/R₂ + …). */
function inParallel<T>(given: readonly Expr<T>[], { set }: Acting<T>): Expr<T> {
  const [a, b] = given as readonly [Expr<T>, Expr<T>];
  if (given.length === 2) return over(times(a, b), plus(a, b));
  const one = known(null, set.arithmetic.one, "1");
  return over(one, plus(...given.map((each) => over(one, each))));
}

function ohmSteps<T>(acting: Acting<T>, port: Port): Step<T>[] {
  const open = openKey(port);
  const parts = partsOf(acting, port);
  const nodes = endNodes(acting, port);
  const what = port.make.kind === "series" ? `${listed(port.make.of.map(labelOf))} in series` : labelOf(port);
  const law = (head: string, other: string, right: (other: Expr<T>, impedance: Expr<T>) => Expr<T>): Step<T> => ({
    kind: "line",
    head,
    body: [other, open],
    cost: COST.ohm,
    infer: ([given, impedance]) => ({
      rule: { kind: "ohm" },
      right: right(given as Expr<T>, impedance as Expr<T>),
      sentence: `Ohm's law for ${what}.`,
      parts,
      nodes,
    }),
  });
  return [law(currentKey(port), voltageOf(port), over), law(voltageOf(port), currentKey(port), times)];
}

/** Stretches of a row: each piece, and each longer run that is not the whole. */
function seriesSteps<T>(acting: Acting<T>, port: Port, of: readonly Port[], facts: Map<string, Fact<T>>): Step<T>[] {
  const steps: Step<T>[] = [];
  const all = of.map(openKey);
  const isImage = of.some(({ image }) => image === "voltage");
  for (const each of of) {
    steps.push(sameStep(currentKey(each), currentKey(port)), sameStep(currentKey(port), currentKey(each)));
  }
  for (let start = 0; start < of.length; start++) {
    for (let end = start + 1; end <= of.length; end++) {
      if (end - start === of.length) continue;
      const stretch = of.slice(start, end);
      const [first, last] = [stretch[0] as Port, stretch.at(-1) as Port];
      if (isImage && stretch.some(({ image }) => image === "voltage")) continue;
      const key = stretch.length === 1 ? voltageOf(first) : voltageKey(first.from, last.to);
      if (stretch.length > 1 && !facts.has(key)) {
        facts.set(key, {
          key,
          name: pairName(acting, first.from, last.to),
          unit: "V",
          expected: () => voltageBetween(acting, first.from, last.to),
        });
      }
      steps.push({
        kind: "line",
        head: key,
        body: [voltageOf(port), ...all],
        // Voltages to the reference are the ones that people think in.
        cost:
          acting.joined(last.to) === acting.joined(acting.set.network.reference)
            ? COST.division
            : COST.division + 0.005,
        infer: ([voltage, ...impedances]) => ({
          rule: { kind: "voltage-division" },
          right: times(voltage as Expr<T>, over(plus(...impedances.slice(start, end)), plus(...impedances))),
          sentence: `${listed(of.map(labelOf))} are in series: the voltage divides as the ${word(acting)}.`,
          parts: partsOf(acting, port),
          nodes: [joinedName(acting, first.from), joinedName(acting, last.to)],
        }),
      });
    }
  }
  return steps;
}

const word = <T>(acting: Acting<T>): string => (acting.set.stimulus.frequency === null ? "resistances" : "impedances");

function parallelSteps<T>(acting: Acting<T>, port: Port, of: readonly Port[], facts: Map<string, Fact<T>>): Step<T>[] {
  const steps: Step<T>[] = [];
  for (const each of of.filter(({ original }) => original === null)) {
    const others = of.filter((other) => other !== each);
    const other = others[0] as Port;
    const isTwo = others.length === 1;
    steps.push({
      kind: "line",
      head: currentKey(each),
      body: [currentKey(port), ...(isTwo ? [openKey(other), openKey(each)] : [each, ...others].map(closedKey))],
      cost: isTwo ? COST.division : COST.conductances,
      infer: ([current, ...impedances]) => ({
        rule: { kind: "current-division", form: isTwo ? "other-branch" : "conductances" },
        right: times(current as Expr<T>, isTwo ? shareOfTwo(impedances) : shareOfMany(impedances, acting)),
        sentence: isTwo
          ? splitSentence(acting, labelOf(each), labelOf(other))
          : `The current splits between ${listed(of.map(labelOf))}, as the ${acting.set.stimulus.frequency === null ? "conductances" : "admittances"}.`,
        parts: partsOf(acting, port),
        nodes: endNodes(acting, port),
      }),
    });
    if (!isTwo && each.make.kind === "series") steps.push(...restSteps(acting, port, each, others, facts));
    const rest = others.map(currentKey);
    steps.push({
      kind: "line",
      head: currentKey(each),
      body: [currentKey(port), ...rest],
      cost: COST.law,
      infer: ([whole, ...given]) => ({
        rule: { kind: "current-law" },
        right: {
          kind: "sum",
          terms: [{ sign: 1, of: whole as Expr<T> }, ...given.map((term) => ({ sign: -1 as const, of: term }))],
        },
        sentence: `Kirchhoff's current law at node ${joinedName(acting, port.from)}: what is left goes through ${labelOf(each)}.`,
        parts: partsOf(acting, port),
        nodes: endNodes(acting, port),
      }),
    });
  }
  steps.push({
    kind: "line",
    head: currentKey(port),
    body: of.map(currentKey),
    cost: COST.law,
    infer: (given) => ({
      rule: { kind: "current-law" },
      right: plus(...given),
      sentence: `Kirchhoff's current law at node ${joinedName(acting, port.from)}: the branches together.`,
      parts: partsOf(acting, port),
      nodes: endNodes(acting, port),
    }),
  });
  return steps;
}

/** All other branches taken as one, so that the current splits in two. */
function restSteps<T>(
  acting: Acting<T>,
  port: Port,
  each: Port,
  others: readonly Port[],
  facts: Map<string, Fact<T>>,
): Step<T>[] {
  const { add, divide, one } = acting.set.arithmetic;
  const key = `R ${port.id} but ${each.id}`;
  const parts = others.flatMap((other) => partsOf(acting, other));
  const letter = acting.set.stimulus.frequency === null ? "R" : "Z";
  const name = combinedName(parts, letter, 100 + each.id);
  const expected = (): T => divide(one, others.map((other) => divide(one, pieceImpedance(acting, other))).reduce(add));
  facts.set(key, { key, name, unit: "Ω", expected });
  return [
    {
      kind: "line",
      head: key,
      body: others.map(closedKey),
      cost: COST.parallel,
      infer: (given) => ({
        rule: { kind: "parallel" },
        right: inParallel(given, acting),
        sentence: `${listed(others.map(({ name: other }) => other.text))} join the same two nodes: in parallel.`,
        parts,
        nodes: endNodes(acting, port),
      }),
    },
    {
      kind: "line",
      head: currentKey(each),
      body: [currentKey(port), key, openKey(each)],
      cost: COST.division,
      infer: ([current, ...impedances]) => ({
        rule: { kind: "current-division", form: "other-branch" },
        right: times(current as Expr<T>, shareOfTwo(impedances)),
        sentence: splitSentence(acting, labelOf(each), name.text),
        parts: partsOf(acting, port),
        nodes: endNodes(acting, port),
      }),
    },
  ];
}

function splitSentence<T>(acting: Acting<T>, own: string, other: string): string {
  return `The current splits between ${own} and ${other}: each gets the share of the other's ${word(acting).slice(0, -1)}.`;
}

function shareOfTwo<T>([other, own]: readonly Expr<T>[]): Expr<T> {
  return over(other as Expr<T>, plus(own as Expr<T>, other as Expr<T>));
}

function shareOfMany<T>(impedances: readonly Expr<T>[], { set }: Acting<T>): Expr<T> {
  const one = known(null, set.arithmetic.one, "1");
  const conductances = impedances.map((each) => over(one, each));
  return over(conductances[0] as Expr<T>, plus(...conductances));
}

function sameStep<T>(head: string, body: string): Step<T> {
  return { kind: "same", head, body: [body], cost: 0, of: ([only]) => only as Expr<T> };
}

/** What a piece is called in a sentence: R3, R45, or R3 + R12. */
export function labelOf(port: Port): string {
  return port.make.kind === "series" ? port.make.of.map(labelOf).join(" + ") : port.name.text;
}

export function partsOf<T>(acting: Acting<T>, port: Port): string[] {
  return port.parts.map((i) => branchOf(acting, i).part);
}

export function endNodes<T>(acting: Acting<T>, port: Port): string[] {
  return [joinedName(acting, port.from), joinedName(acting, port.to)];
}
