import type { Fraction } from "mathjs";
import type { MistakeCode } from "../../../shared/check/mistakes";
import { exact, exactValue, isSource, type RawCircuit, type RawElement } from "../../independent/elements";
import { dcNetwork, type Network } from "../../independent/tableau";

/**
 * What somebody gets who makes a mistake, worked out a second time: on the elements of a circuit file, by the tableau of
 * the tests in mathjs's fractions, and by the formula that is misused. Nothing here is shared with the catalogue.
 */
export type WrongWay = {
  readonly code: MistakeCode;
  /** The sources of the addend that it is made in; null for the total. */
  readonly acting: readonly string[] | null;
  /** Null where it leads to no value. Worked out when it is asked for, since it takes its time. */
  readonly value: () => Fraction | null;
};

/** A wanted current through a resistor, from its first node to its second. */
export type Question = { readonly circuit: RawCircuit; readonly through: string };

const f = (n: number, d = 1): Fraction => exact.fraction(n, d);
const plus = (a: Fraction, b: Fraction): Fraction => exact.add(a, b) as Fraction;
const times = (a: Fraction, b: Fraction): Fraction => exact.multiply(a, b) as Fraction;
const over = (a: Fraction, b: Fraction): Fraction => exact.divide(a, b) as Fraction;
const total = (values: readonly Fraction[]): Fraction => values.reduce(plus, f(0));

/** The current with some sources acting in a circuit; null where it has none. */
function currentIn(
  { elements, reference = "0" }: RawCircuit,
  through: string,
  acting: readonly string[],
): Fraction | null {
  const network: Network<Fraction> | null = dcNetwork({ elements, reference });
  return network === null ? null : network.answer(acting).current(through);
}

const asWire = ({ id, nodes }: RawElement): RawElement => ({ id, kind: "wire", nodes });
const asGap = ({ id, nodes }: RawElement): RawElement => ({ id, kind: "switch", state: "open", nodes });
const changed = (circuit: RawCircuit, id: string, change: (element: RawElement) => RawElement): RawCircuit => ({
  ...circuit,
  elements: circuit.elements.map((element) => (element.id === id ? change(element) : element)),
});

export function wrongWays({ circuit, through }: Question): readonly WrongWay[] {
  const sources = circuit.elements.filter(isSource);
  const ids = sources.map(({ id }) => id);
  const ways: WrongWay[] = [];
  const add = (code: MistakeCode, acting: readonly string[] | null, value: () => Fraction | null): void => {
    ways.push({ code, acting, value });
  };
  const addends = ids.map((id) => currentIn(circuit, through, [id]));
  if (addends.some((addend) => addend === null)) return [];
  const shares = addends.flatMap((addend) => addend ?? []);
  for (const [k, id] of ids.entries()) {
    const own = shares[k] as Fraction;
    add("signTurned", [id], () => times(own, f(-1)));
    add("prefixSlip", [id], () => times(own, f(1000)));
    for (const other of sources.filter((source) => source.id !== id)) {
      add("sourceLeftOn", [id], () => currentIn(circuit, through, [id, other.id]));
      if (other.kind === "voltage-source") {
        add("voltageSourceOpened", [id], () => currentIn(changed(circuit, other.id, asGap), through, [id]));
      } else add("currentSourceShorted", [id], () => currentIn(changed(circuit, other.id, asWire), through, [id]));
    }
    if (ids.length > 2) add("everySourceLeftOn", [id], () => currentIn(circuit, through, ids));
    for (const element of circuit.elements) {
      const isVoltage = element.kind === "vcvs" || element.kind === "ccvs";
      if (isVoltage || element.kind === "vccs" || element.kind === "cccs") {
        add("dependentZeroed", [id], () =>
          currentIn(changed(circuit, element.id, isVoltage ? asWire : asGap), through, [id]),
        );
      }
      if (element.kind !== "resistor") continue;
      if (element.id !== through) {
        add("partDropped", [id], () => currentIn(changed(circuit, element.id, asWire), through, [id]));
        add("partDropped", [id], () => currentIn(changed(circuit, element.id, asGap), through, [id]));
      }
      const kilo = (each: RawElement): RawElement => ({
        ...each,
        value: ohms(times(exactValue(each.value ?? 0), f(1000))),
      });
      add("inputPrefixSlip", [id], () => currentIn(changed(circuit, element.id, kilo), through, [id]));
    }
    for (const { code, value } of pairWays(circuit, through, id)) add(code, [id], value);
  }
  if (ids.length > 1) {
    const whole = total(shares);
    shares.forEach((share) => {
      add("addendForgotten", null, () => exact.subtract(whole, share) as Fraction);
      add("addendSignTurned", null, () => exact.subtract(whole, times(share, f(2))) as Fraction);
      add("sourceCountedTwice", null, () => plus(whole, share));
    });
    add("signsIgnored", null, () => total(shares.map((share) => exact.abs(share) as unknown as Fraction)));
    sources.forEach(({ id }) => {
      const turned = changed(circuit, id, (each) => ({ ...each, nodes: [...each.nodes].reverse() }));
      add("polarityTurned", null, () => currentIn(turned, through, ids));
    });
  }
  return ways;
}

const ohms = (value: Fraction): string => `${value.toFraction()} Ω`;

/** Two resistors in parallel or in series as they are drawn, and what is made of them. */
function pairWays(circuit: RawCircuit, through: string, source: string): readonly Pick<WrongWay, "code" | "value">[] {
  // What follows a zeroed source would follow nothing here.
  if (circuit.elements.some(({ control }) => control !== undefined)) return [];
  const bare = zeroed(circuit, source);
  const resistors = bare.elements.filter(({ kind }) => kind === "resistor");
  const own = resistors.find(({ id }) => id === through);
  const others = resistors.filter((each) => own && each.id !== through && sameEnds(each, own));
  const isHeld = bare.elements.some((each) => own && each.kind === "voltage-source" && sameEnds(each, own));
  const ways: Pick<WrongWay, "code" | "value">[] = [];
  if (own && others.length > 0 && !isHeld && own.nodes[0] !== own.nodes[1]) {
    const mine = exactValue(own.value ?? 0);
    const theirs = others.map(({ value }) => exactValue(value ?? 0));
    // All that flows into the branches, in the direction of the wanted one.
    const into = (): Fraction => {
      const answer = dcNetwork(bare)?.answer([source]);
      const flows = [own, ...others].map(({ id, nodes }) => {
        const current = answer?.current(id) ?? f(0);
        return nodes[0] === own.nodes[0] ? current : times(current, f(-1));
      });
      return total(flows);
    };
    const all = total([mine, ...theirs]);
    const rest = over(f(1), total(theirs.map((each) => over(f(1), each))));
    const equivalent = over(times(mine, rest), plus(mine, rest));
    ways.push({ code: "divisionTurned", value: () => times(into(), over(mine, plus(mine, rest))) });
    ways.push({ code: "evenSplit", value: () => over(into(), f(others.length + 1)) });
    ways.push({ code: "equivalentOverSum", value: () => times(into(), over(equivalent, all)) });
    if (others.length > 1)
      ways.push({ code: "otherBranchesSummed", value: () => times(into(), over(total(theirs), all)) });
    if (others.length > 1) {
      const [first] = theirs;
      if (first) ways.push({ code: "oneOtherBranch", value: () => times(into(), over(first, plus(mine, first))) });
    }
  }
  resistors.forEach((a, i) => {
    for (const b of resistors.slice(i + 1)) {
      if (a.id === through || b.id === through) continue;
      const [x, y] = [exactValue(a.value ?? 0), exactValue(b.value ?? 0)];
      if (a.nodes[0] === a.nodes[1] || b.nodes[0] === b.nodes[1]) continue;
      if (sameEnds(a, b)) {
        const one = changed(
          changed(bare, a.id, (each) => ({ ...each, value: ohms(plus(x, y)) })),
          b.id,
          asGap,
        );
        ways.push({ code: "parallelAsSeries", value: () => currentIn(one, through, [source]) });
        continue;
      }
      const middle = a.nodes.find((node) => b.nodes.includes(node));
      const meeting = bare.elements.filter(({ nodes, kind }) => kind !== "switch" && nodes.includes(middle ?? ""));
      if (middle === undefined || middle === bare.reference || meeting.length !== 2) continue;
      const product = over(times(x, y), plus(x, y));
      const one = changed(
        changed(bare, a.id, (each) => ({ ...each, value: ohms(product) })),
        b.id,
        asWire,
      );
      ways.push({ code: "seriesAsParallel", value: () => currentIn(one, through, [source]) });
    }
  });
  return ways;
}

/** One source alone: the nodes of zeroed voltage sources have one name, zeroed current sources are gone. */
function zeroed({ elements, reference = "0" }: RawCircuit, source: string): RawCircuit {
  const name = new Map<string, string>();
  const find = (node: string): string => {
    const next = name.get(node);
    return next === undefined ? node : find(next);
  };
  for (const { id, kind, nodes } of elements) {
    const [a, b] = nodes.map(find);
    if (kind !== "voltage-source" || id === source || a === undefined || b === undefined || a === b) continue;
    if (a === reference) name.set(b, a);
    else name.set(a, b);
  }
  return {
    reference,
    elements: elements
      .filter((each) => !isSource(each) || each.id === source)
      .map((each) => ({ ...each, nodes: each.nodes.map(find) })),
  };
}

function sameEnds(a: RawElement, b: RawElement): boolean {
  return [...a.nodes].sort().join() === [...b.nodes].sort().join();
}
