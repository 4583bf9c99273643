import { listed } from "../circuit/problemText";
import type { Branch, BranchIndex } from "../solve/network";
import type { Linear } from "../solve/superposition";
import { branchIndex, nodeIndex } from "../solve/superposition";
import { type Acting, branchOf, joinedName, nodeName } from "./acting";
import { type Expr, evaluate, known, negative, type SignedTerm, sumOf } from "./expression";
import { isTie, smallestCut } from "./kirchhoff";
import type { Rule } from "./line";
import type { Name } from "./names";
import type { Found } from "./nodeEquations";
import type { Notebook } from "./notebook";
import { voltageFrom } from "./quantities";

/** What the solver has for a wanted voltage or current of an acting circuit. */
export function expectedOf<T>(acting: Acting<T>, linear: Linear): T {
  const { set, response } = acting;
  const { add, negate } = set.arithmetic;
  if (linear.kind === "voltage") {
    const [from, to] = [nodeIndex(set.network, linear.from), nodeIndex(set.network, linear.to)];
    return add(response.nodeVoltage(from), negate(response.nodeVoltage(to)));
  }
  const current = response.branchCurrent(branchIndex(set.network, linear.through, linear.winding));
  return linear.direction === "forward" ? current : negate(current);
}

/** From the solved unknowns to what is wanted, in one line; none where an unknown is the wanted quantity itself. */
export function writeLastHop<T>(
  acting: Acting<T>,
  linear: Linear,
  name: Name,
  found: Found<T>,
  notebook: Notebook<T>,
): void {
  if (found.isWanted === true) return;
  if (linear.kind === "voltage") writeVoltage(acting, linear, name, found, notebook);
  else writeCurrent(acting, linear, name, found, notebook);
}

function writeVoltage<T>(
  acting: Acting<T>,
  linear: Extract<Linear, { kind: "voltage" }>,
  name: Name,
  found: Found<T>,
  notebook: Notebook<T>,
): void {
  const { network, arithmetic } = acting.set;
  const [from, to] = [nodeIndex(network, linear.from), nodeIndex(network, linear.to)];
  const right = voltageFrom(found, from, to) ?? known(null, arithmetic.zero, "V");
  const { rule, sentence } = voltageWords(right, linear, name);
  notebook.state(
    {
      rule,
      sentence,
      nodes: [linear.from, linear.to],
    },
    [{ left: name, right, unit: "V", expected: expectedOf(acting, linear) }],
  );
}

/** How a voltage comes out of what is known. */
function voltageWords<T>(
  right: Expr<T>,
  { from, to }: Extract<Linear, { kind: "voltage" }>,
  name: Name,
): { readonly rule: Rule; readonly sentence: string } {
  if (right.kind === "quantity") {
    return { rule: { kind: "same-voltage" }, sentence: `That is the voltage from ${from} to ${to}.` };
  }
  if (right.kind !== "sum")
    return { rule: { kind: "ohm" }, sentence: `Ohm's law for the voltage from ${from} to ${to}.` };
  const [first, second, ...more] = right.terms;
  if (first?.sign === -1 && second === undefined) {
    return { rule: { kind: "sign" }, sentence: `${name.text} is counted from ${from} to ${to}: the sign changes.` };
  }
  const isPair = more.length === 0 && first?.of.kind === "quantity" && second?.of.kind === "quantity";
  const isDifference = isPair && first?.sign === 1 && second?.sign === -1;
  return {
    rule: { kind: "voltage-law" },
    sentence: isDifference
      ? `The voltage from ${from} to ${to} is the difference of the two.`
      : `Kirchhoff's voltage law on the way from ${from} to ${to}.`,
  };
}

function writeCurrent<T>(
  acting: Acting<T>,
  linear: Extract<Linear, { kind: "current" }>,
  name: Name,
  found: Found<T>,
  notebook: Notebook<T>,
): void {
  const i = branchIndex(acting.set.network, linear.through, linear.winding);
  const sign = linear.direction === "forward" ? 1 : -1;
  const expected = expectedOf(acting, linear);
  const direct = found.branchCurrent(i);
  if (direct?.kind === "quantity" && direct.name === null) {
    const sentence = `${linear.through} carries no current.`;
    notebook.state({ rule: { kind: "nothing-flows" }, sentence, parts: [linear.through] }, [
      { left: name, right: direct, unit: "A", expected },
    ]);
    return;
  }
  if (direct !== null) {
    const right = sign === 1 ? direct : reversed(direct);
    const isTurned = right.kind === "sum" && right.terms.length === 1;
    const isOhm = acting.laws[i]?.kind === "admittance" && right.kind === "quotient";
    const { plus, minus } = branchOf(acting, i);
    notebook.state(
      {
        rule: { kind: isOhm ? "ohm" : isTurned ? "sign" : "same-current" },
        sentence: isOhm
          ? `Ohm's law for ${linear.through}, in the reference direction.`
          : isTurned
            ? `${name.text} is counted the other way, so the sign changes.`
            : `That is the current in ${linear.through}.`,
        parts: [linear.through],
        nodes: [nodeName(acting, plus), nodeName(acting, minus)],
      },
      [{ left: name, right, unit: "A", expected }],
    );
    return;
  }
  const terms = currentByCut(acting, i, found);
  if (terms === null) {
    notebook.fail(name.text, "no cut", "a current");
    return;
  }
  const right = sumOf(terms.terms.map((term) => forward({ sign: (term.sign * sign) as 1 | -1, of: term.of })));
  notebook.state(
    {
      rule: { kind: "current-law" },
      sentence: `Kirchhoff's current law ${terms.where} gives the current in ${linear.through}.`,
      parts: [linear.through, ...terms.parts],
      nodes: terms.nodes,
    },
    [
      {
        left: name,
        right: terms.terms.length === 0 ? known(null, acting.set.arithmetic.zero, "A") : right,
        unit: "A",
        expected,
      },
    ],
  );
}

/** (V(a) − V(b))/R turned round. */
export function reversed<T>(expr: Expr<T>): Expr<T> {
  if (expr.kind === "quotient") return { ...expr, over: reversed(expr.over) };
  if (expr.kind === "sum") {
    const terms = expr.terms.map(({ sign, of }) => ({ sign: -sign as 1 | -1, of }));
    return sumOf([...terms].sort((a, b) => b.sign - a.sign));
  }
  return negative(expr);
}

/** A current that counts negative, turned round so that it counts positive. */
export function forward<T>(term: SignedTerm<T>): SignedTerm<T> {
  if (term.of.kind !== "quotient") return term;
  const { over } = term.of;
  const isNegative = over.kind === "sum" && over.terms.every(({ sign }) => sign === -1);
  const isDifference = over.kind === "sum" && over.terms.length === 2 && !isNegative;
  const isTurned = isNegative || (isDifference && term.sign === -1);
  return isTurned ? { sign: -term.sign as 1 | -1, of: reversed(term.of) } : term;
}

type CutTerms<T> = {
  readonly terms: readonly SignedTerm<T>[];
  readonly where: string;
  readonly parts: readonly string[];
  readonly nodes: readonly string[];
};

/** The current of a short or an ideal voltage from those of the branches around it; null where they don't give it. */
export function currentByCut<T>(acting: Acting<T>, i: BranchIndex, found: Found<T>): CutTerms<T> | null {
  const isFound = (other: BranchIndex): boolean => isTie(acting, other) && found.branchCurrent(other) !== null;
  const cut = smallestCut(acting, i, isFound);
  if (cut === null) return null;
  const terms: SignedTerm<T>[] = [];
  const parts: string[] = [];
  for (const { branch, sign } of cut.others) {
    const current = found.branchCurrent(branch);
    if (current === null) return null;
    if (acting.set.arithmetic.isZero(evaluate(current, acting.set.arithmetic)) && current.kind === "quantity") continue;
    terms.push({ sign, of: current });
    parts.push((branchOf(acting, branch) as Branch<T>).part);
  }
  const nodes = [...new Set(cut.nodes.map((node) => nodeName(acting, node)))];
  const outer =
    nodes.length > 3
      ? `around node ${joinedName(acting, cut.nodes[0] as number)} and all that is tied to it`
      : `around nodes ${listed(nodes)}`;
  return { terms, where: nodes.length === 1 ? `at node ${nodes[0]}` : outer, parts, nodes };
}
