import type { BranchIndex, NodeIndex } from "../solve/network";
import type { Acting } from "./acting";
import { type Expr, over, times } from "./expression";
import type { Fact, Step } from "./facts";
import type { Name } from "./names";
import { isRegular, pieceImpedance } from "./portImpedance";
import {
  closedKey,
  currentKey,
  endNodes,
  gatheredSteps,
  labelOf,
  openKey,
  partsOf,
  portSteps,
  solvedCurrent,
} from "./portSteps";
import type { Port, PortMaker } from "./ports";
import { voltageBetween } from "./quantities";
import type { Transformation } from "./sketcher";

/** A source that drives a piece: held voltage along it, or held current into it. */
export type Driver = {
  readonly kind: "voltage" | "current";
  readonly key: string;
  /** The source's name. */
  readonly name: string;
};

/** One way to look at a driven circuit: as it is, or after source transformations towards what is wanted. */
export type View<T> = { readonly root: Port; readonly driver: Driver; readonly steps: readonly Step<T>[] };

/** What is wanted, as it stands in the pieces: the branch or the two nodes. */
export type Goal =
  | { readonly kind: "branch"; readonly branch: BranchIndex }
  | { readonly kind: "nodes"; readonly from: NodeIndex; readonly to: NodeIndex };

const MOST_TRANSFORMATIONS = 4;
/** As lines go; where plain division takes as many, it is easier to see. */
const TRANSFORMATION = 1.1;

export function plainView<T>(
  acting: Acting<T>,
  root: Port,
  driver: Driver,
  goal: Goal,
  facts: Map<string, Fact<T>>,
): View<T> {
  return { root, driver, steps: portSteps(acting, root, facts, branchOfGoal(goal)) };
}

/** The circuit as it is, then with its source transformed once, twice and so on, as long as what is wanted stays outside. */
export function viewsOf<T>(
  acting: Acting<T>,
  maker: PortMaker<T>,
  root: Port,
  driver: Driver,
  goal: Goal,
  facts: Map<string, Fact<T>>,
): readonly View<T>[] {
  const views: View<T>[] = [plainView(acting, root, driver, goal, facts)];
  let made: readonly Step<T>[] = [];
  let at: { root: Port; driver: Driver } = { root, driver };
  for (let count = 1; count <= MOST_TRANSFORMATIONS; count++) {
    const next = transformed(acting, maker, at.root, at.driver, goal, facts, count);
    if (next === null) break;
    made = [...made, ...next.steps];
    at = next;
    views.push({
      root: next.root,
      driver: next.driver,
      steps: [...made, ...portSteps(acting, next.root, facts, branchOfGoal(goal))],
    });
  }
  return views;
}

const branchOfGoal = (goal: Goal): BranchIndex | null => (goal.kind === "branch" ? goal.branch : null);

type Transformed<T> = { readonly root: Port; readonly driver: Driver; readonly steps: readonly Step<T>[] };

function transformed<T>(
  acting: Acting<T>,
  maker: PortMaker<T>,
  root: Port,
  driver: Driver,
  goal: Goal,
  facts: Map<string, Fact<T>>,
  count: number,
): Transformed<T> | null {
  const { make } = root;
  if (make.kind === "branch") return null;
  const holding = make.of.filter((port) => port.image === "none" && goalIsIn(acting, port, goal));
  const rest = make.of.filter((port) => !holding.includes(port));
  const [inner] = holding;
  if (inner === undefined || rest.length === 0 || holding.length !== 1) return null;
  if (rest.some((port) => port.original === null && !isRegular(acting, port))) return null;
  if (driver.kind === "voltage" && make.kind === "series") {
    return toCurrent(acting, maker, driver, inner, rest, facts, count);
  }
  if (driver.kind === "current" && make.kind === "parallel") {
    return toVoltage(acting, maker, root, driver, inner, rest, facts, count);
  }
  return null;
}

/** Whether a piece has in it what is wanted, ends included for a voltage. */
export function goalIsIn<T>(acting: Acting<T>, port: Port, goal: Goal): boolean {
  if (goal.kind === "branch") return port.parts.includes(goal.branch);
  const nodes = new Set([port.from, port.to]);
  for (const i of port.parts) {
    const branch = acting.set.network.branches[i];
    if (branch !== undefined) nodes.add(acting.joined(branch.plus)).add(acting.joined(branch.minus));
  }
  return nodes.has(goal.from) && nodes.has(goal.to);
}

function sourceName(kind: "voltage" | "current", count: number): Name {
  const letter = kind === "voltage" ? "V" : "I";
  const mark = count <= 2 ? "t" : `t${Math.ceil(count / 2)}`;
  return { text: `${letter}${mark}`, latex: `${letter}_{\\mathrm{${mark}}}` };
}

/** A voltage in series with `rest` becomes a current beside it, across `inner`. */
function toCurrent<T>(
  acting: Acting<T>,
  maker: PortMaker<T>,
  driver: Driver,
  inner: Port,
  rest: readonly Port[],
  facts: Map<string, Fact<T>>,
  count: number,
): Transformed<T> {
  const { add, divide } = acting.set.arithmetic;
  const row = maker.gathered(rest);
  const image = maker.image(row, "current", inner.from, inner.to);
  const key = `J ${image.id}`;
  facts.set(key, {
    key,
    name: sourceName("current", count),
    unit: "A",
    expected: () =>
      add(
        divide(voltageBetween(acting, inner.from, inner.to), pieceImpedance(acting, row)),
        solvedCurrent(acting, inner),
      ),
  });
  const together = maker.parallel([image, inner]);
  const steps: Step<T>[] = [
    ...rest.flatMap((port) => gatheredSteps(acting, port, facts)),
    ...(rest.length === 1 ? [] : gatheredSteps(acting, row, facts)),
    {
      kind: "line",
      head: key,
      body: [driver.key, ...rest.map(openKey)],
      cost: TRANSFORMATION,
      infer: ([voltage, ...impedances]) => ({
        rule: { kind: "source-transformation", to: "current" },
        right: over(voltage as Expr<T>, sumOfAll(impedances)),
        sentence: `Source transformation: the voltage in series with ${rest.map(labelOf).join(" + ")} becomes a current beside it.`,
        parts: [...acting.on, ...rest.flatMap((port) => partsOf(acting, port))],
        nodes: endNodes(acting, inner),
        transforms: transformation(
          acting,
          driver,
          row,
          facts.get(key) as Fact<T>,
          [...endNodes(acting, inner)].reverse(),
        ),
      }),
    },
    { kind: "same", head: currentKey(together), body: [key], cost: 0, of: ([only]) => only as Expr<T> },
  ];
  return { root: together, driver: { kind: "current", key, name: sourceName("current", count).text }, steps };
}

/** A current beside `rest` becomes a voltage in series with it. */
function toVoltage<T>(
  acting: Acting<T>,
  maker: PortMaker<T>,
  root: Port,
  driver: Driver,
  inner: Port,
  rest: readonly Port[],
  facts: Map<string, Fact<T>>,
  count: number,
): Transformed<T> {
  const { add, multiply } = acting.set.arithmetic;
  const [first] = rest as readonly [Port];
  const block = rest.length === 1 ? first : maker.parallel(rest);
  const image = maker.image(block, "voltage", root.from, inner.from);
  const key = `J ${image.id}`;
  facts.set(key, {
    key,
    name: sourceName("voltage", count),
    unit: "V",
    expected: () =>
      add(
        voltageBetween(acting, inner.from, inner.to),
        multiply(pieceImpedance(acting, block), solvedCurrent(acting, inner)),
      ),
  });
  const chain = maker.row(image, inner);
  const steps: Step<T>[] = [
    ...rest.flatMap((port) => gatheredSteps(acting, port, facts)),
    ...(rest.length === 1 ? [] : gatheredSteps(acting, block, facts)),
    {
      kind: "line",
      head: key,
      body: [driver.key, closedKey(block)],
      cost: TRANSFORMATION,
      infer: ([current, impedance]) => ({
        rule: { kind: "source-transformation", to: "voltage" },
        right: times(current as Expr<T>, impedance as Expr<T>),
        sentence: `Source transformation: the current beside ${labelOf(block)} becomes a voltage in series with it.`,
        parts: [...acting.on, ...partsOf(acting, block)],
        nodes: endNodes(acting, inner),
        transforms: transformation(acting, driver, block, facts.get(key) as Fact<T>, endNodes(acting, inner)),
      }),
    },
    { kind: "same", head: `W ${chain.id}`, body: [key], cost: 0, of: ([only]) => only as Expr<T> },
  ];
  return { root: chain, driver: { kind: "voltage", key, name: sourceName("voltage", count).text }, steps };
}

/** What is drawn anew: `plus` and `minus` are the nodes that the new source, or with its resistance the voltage, stands between. */
function transformation<T>(
  acting: Acting<T>,
  driver: Driver,
  block: Port,
  { name, unit, expected }: Fact<T>,
  [plus, minus]: readonly string[],
): Transformation {
  const { numerals, set } = acting;
  const isVoltage = unit === "V";
  // The voltage and its resistance meet at a node that the first circuit does not have.
  const joint = isVoltage ? name.text : plus;
  const source = {
    id: name.text,
    kind: isVoltage ? "voltage-source" : "current-source",
    nodes: [joint as string, minus as string],
    value: numerals.figure(expected(), unit).text,
    of: [...acting.on],
  };
  const resistance = {
    id: block.name.text,
    kind: set.stimulus.frequency === null ? "resistor" : "impedance",
    nodes: [joint as string, (isVoltage ? plus : minus) as string],
    value: numerals.figure(pieceImpedance(acting, block), "Ω").text,
    of: partsOf(acting, block),
  };
  return { driver: driver.name, source, resistance };
}

const sumOfAll = <T>(exprs: readonly Expr<T>[]): Expr<T> =>
  exprs.length === 1 ? (exprs[0] as Expr<T>) : { kind: "sum", terms: exprs.map((of) => ({ sign: 1, of })) };
