import { unreachable } from "../quantity";
import type { BranchIndex, Law } from "../solve/network";
import { type Acting, branchOf, joinedName } from "./acting";
import { type Expr, known, type QuantityExpr, times, unknown } from "./expression";
import { symbolOf } from "./names";
import type { Found } from "./nodeEquations";
import type { Balance, Notebook } from "./notebook";
import { branchCurrentName, pairName, voltageFrom } from "./quantities";

/** What the dependent sources of a circuit follow, each an unknown with an equation that says what it is. */
export type Controls<T> = {
  readonly balances: readonly (Balance<T> & { readonly source: BranchIndex; readonly nodes: readonly string[] })[];
  /** Gain times what the source follows. */
  product(source: BranchIndex): Expr<T>;
};

/** Takes each control as an unknown, unless it is known or an unknown already. `found` says what is expressed so far. */
export function controlsOf<T>(acting: Acting<T>, found: Found<T>, unknowns: Map<string, QuantityExpr<T>>): Controls<T> {
  const followed = new Map<BranchIndex, Expr<T>>();
  const gains = new Map<BranchIndex, Expr<T>>();
  const product = (source: BranchIndex): Expr<T> =>
    times(gains.get(source) as Expr<T>, followed.get(source) as Expr<T>);
  const asked: { readonly source: BranchIndex; readonly control: Control<T> }[] = [];
  for (const source of acting.live) {
    const law = acting.laws[source] as Law<T>;
    if (law.kind !== "vcvs" && law.kind !== "vccs" && law.kind !== "ccvs" && law.kind !== "cccs") continue;
    const control = controlOf(acting, law, found, product);
    const { key, quantity, meaning } = control;
    gains.set(source, gainOf(acting, source, law));
    followed.set(source, (meaning === null ? null : unknowns.get(key)) ?? quantity);
    if (meaning === null || unknowns.has(key)) continue;
    unknowns.set(key, quantity);
    asked.push({ source, control });
  }
  // Only when asked, since what a source follows may run over another that comes after it.
  let known: Controls<T>["balances"] | null = null;
  const balances = (): Controls<T>["balances"] => {
    known ??= asked.flatMap(({ source, control: { quantity, meaning, nodes } }) =>
      meaning === null ? [] : [{ left: quantity, right: meaning(), unit: quantity.unit, source, nodes }],
    );
    return known;
  };
  return {
    get balances() {
      return balances();
    },
    product,
  };
}

type Control<T> = {
  readonly key: string;
  readonly quantity: QuantityExpr<T>;
  /** What it is in terms of the other unknowns; null where it needs no equation. */
  readonly meaning: (() => Expr<T>) | null;
  readonly nodes: readonly string[];
};

function controlOf<T>(
  acting: Acting<T>,
  law: Extract<Law<T>, { kind: "vcvs" | "vccs" | "ccvs" | "cccs" }>,
  found: Found<T>,
  product: (source: BranchIndex) => Expr<T>,
): Control<T> {
  const { response, set } = acting;
  const { add, negate, zero } = set.arithmetic;
  switch (law.kind) {
    case "vcvs":
    case "vccs": {
      const { plus, minus } = law.control;
      const nodes = [joinedName(acting, plus), joinedName(acting, minus)];
      const isOne = acting.joined(plus) === acting.joined(minus);
      // Along meshes the way may lead over another source that follows something, so it is looked for later.
      const isLate = found.between !== undefined && !isOne;
      const meaning = isOne || isLate ? null : voltageFrom(found, plus, minus);
      const key = `C ${plus} ${minus}`;
      if (meaning === null && !isLate) return { key, quantity: known(null, zero, "V"), meaning: null, nodes };
      if (meaning?.kind === "quantity") return { key, quantity: meaning, meaning: null, nodes };
      const value = add(response.nodeVoltage(plus), negate(response.nodeVoltage(minus)));
      const late = (): Expr<T> => meaning ?? voltageFrom(found, plus, minus) ?? known(null, zero, "V");
      return { key, quantity: unknown(key, pairName(acting, plus, minus), value, "V"), meaning: late, nodes };
    }
    case "ccvs":
    case "cccs": {
      const i = law.control;
      const key = `I ${i}`;
      const nodes: string[] = [];
      const kind = acting.laws[i]?.kind;
      const isFollower = kind === "vccs" || kind === "cccs";
      const meaning = isFollower ? null : found.branchCurrent(i);
      if (meaning?.kind === "quantity") return { key, quantity: meaning, meaning: null, nodes };
      const quantity = unknown(key, branchCurrentName(acting, i), response.branchCurrent(i), "A");
      if (isFollower) return { key, quantity, meaning: () => product(i), nodes };
      return { key, quantity, meaning: meaning === null ? null : () => meaning, nodes };
    }
    default:
      return unreachable(law);
  }
}

/** The gain by the source's own name: `k(F1)`. */
export function gainOf<T>(
  acting: Acting<T>,
  source: BranchIndex,
  law: Extract<Law<T>, { kind: "vcvs" | "vccs" | "ccvs" | "cccs" }>,
): Expr<T> {
  const { part } = branchOf(acting, source);
  const name = { text: `k(${part})`, latex: `k_{${symbolOf(part).latex}}` };
  const unit = law.kind === "vccs" ? "S" : law.kind === "ccvs" ? "Ω" : "1";
  return known(name, law.gain, unit);
}

/** What each control is, and with it what its source makes of it where that is an equation too. */
export function writeControls<T>(
  acting: Acting<T>,
  controls: Controls<T>,
  notebook: Notebook<T>,
  laws: ReadonlyMap<BranchIndex, Balance<T>>,
): void {
  for (const { source, nodes, ...balance } of controls.balances) {
    const { part } = branchOf(acting, source);
    const name = balance.left.kind === "quantity" ? (balance.left.name?.text ?? "") : "";
    const sentence = `${part} stays on and follows ${name}, which gets an equation of its own.`;
    const law = laws.get(source);
    const balances = law === undefined ? [balance] : [balance, law];
    notebook.balance({ rule: { kind: "control" }, sentence, parts: [part], nodes }, balances);
  }
}
