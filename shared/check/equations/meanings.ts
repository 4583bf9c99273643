import {
  type Circuit,
  type NodeId,
  type Part,
  type PartId,
  terminalsOf,
  type Wanted,
  type Winding,
} from "../../circuit";
import { checkCircuit, wantedName } from "../../circuit/check";
import { toNumber } from "../../quantity";
import { unitOf } from "../../solve";
import { complex } from "../../solve/complex";
import { comparableName } from "../characters";
import { type Dimension, dimensionOf } from "../dimension";
import { complexValue, unitValueOf, type Value } from "../value";
import type { EquationPlace } from "./place";
import type { Meaning, Quantity } from "./quantity";

/** What the names of a circuit mean in an equation; parts by themselves, as values, are found elsewhere. */
export type Meanings = {
  /** Of a word such as `Ix`, `V_a` or `I_R1`; undefined for one that is no name here. */
  word(word: string): Meaning | undefined;
  /** Of a letter with something in parentheses, such as `V(a)`, `V(a, b)` or `I(R1)`. */
  call(letter: string, first: string, second: string | null): Meaning | undefined;
};

const VOLT = dimensionOf("V");
const AMPERE = dimensionOf("A");

/**
 * The names of a place: wanted quantities, node voltages (`V_a`, `Va`, `u_a`, `V(a)`), voltages between two nodes
 * (`V(a, b)`), voltages and currents of parts (`V(R1)`, `V_R1`, `I(R1)`, `I_R1`), and for `R1` with nothing else of that
 * name `I1`. Where one name may mean several things, a wanted quantity goes before a node and a node before a part.
 */
export function meaningsOf({ circuit, omega }: EquationPlace): Meanings {
  const named = new Names(circuit);
  const wanted = (one: Wanted): Meaning => wantedMeaning(circuit, one, named.reference);
  const words = new Map<string, Meaning>();
  const add = (name: string, meaning: Meaning | undefined): void => {
    const key = comparableName(name);
    if (meaning !== undefined && !words.has(key)) words.set(key, meaning);
  };
  for (const one of circuit.wanted) add(wantedName(one), wanted(one));
  for (const node of named.nodes) for (const letter of "VU") add(letter + node, named.node(node));
  for (const { id } of circuit.parts) {
    for (const letter of "VU") add(letter + id, named.voltage(id));
    add(`I${id}`, named.current(id));
  }
  for (const { id } of circuit.parts) if (/^R\d+$/.test(id)) add(`I${id.slice(1)}`, named.current(id));
  const asked = new Map(circuit.wanted.map((one) => [comparableCall(wantedName(one)), wanted(one)]));
  return {
    word: (word) => words.get(comparableName(word)),
    call: (letter, first, second) => {
      const whole = asked.get(
        comparableCall(second === null ? `${letter}(${first})` : `${letter}(${first}, ${second})`),
      );
      return whole ?? named.call(letter.toUpperCase(), first, second, omega);
    },
  };
}

function comparableCall(name: string): string {
  return comparableName(name).replaceAll(" ", "");
}

/** A wanted current or voltage is what it is of; anything else is a quantity of its own. */
function wantedMeaning({ parts }: Circuit, wanted: Wanted, reference: NodeId | null): Meaning {
  if (wanted.kind === "voltage") return between(wanted.from, wanted.to, reference);
  const isThere = wanted.kind === "current" && parts.some(({ id }) => id === wanted.through);
  if (wanted.kind === "current" && isThere) {
    const quantity: Quantity = { of: "current", part: wanted.through, winding: wanted.winding };
    return open([{ sign: wanted.direction === "forward" ? 1 : -1, quantity }], AMPERE);
  }
  return open([{ sign: 1, quantity: { of: "wanted", wanted } }], dimensionOf(unitOf(wanted)));
}

function between(from: NodeId, to: NodeId, reference: NodeId | null): Meaning {
  const terms = [
    { sign: 1, node: from },
    { sign: -1, node: to },
  ] as const;
  const counted = from === to ? [] : terms.filter(({ node }) => node !== reference);
  return open(
    counted.map(({ sign, node }) => ({ sign, quantity: { of: "node", node } as const })),
    VOLT,
  );
}

function open(terms: Extract<Meaning, { kind: "open" }>["terms"], dimension: Dimension): Meaning {
  return { kind: "open", terms, dimension };
}

/** The nodes and parts of a circuit by the names that people write. */
class Names {
  readonly reference: NodeId | null;
  readonly nodes: readonly NodeId[];
  readonly #parts: readonly Part[];

  constructor(circuit: Circuit) {
    this.reference = checkCircuit(circuit).reference;
    this.#parts = circuit.parts;
    this.nodes = [...new Set(circuit.parts.flatMap((part) => terminalsOf(part).map(({ node }) => node)))];
  }

  node(node: NodeId): Meaning | undefined {
    return this.reference === null ? undefined : between(node, this.reference, this.reference);
  }

  voltage(id: PartId): Meaning | undefined {
    const part = this.#parts.find((each) => each.id === id);
    if (part === undefined || part.kind === "ideal-opamp" || part.kind === "ideal-transformer") return undefined;
    return open([{ sign: 1, quantity: { of: "voltage", part: id } }], VOLT);
  }

  current(id: PartId, winding: Winding = "primary"): Meaning | undefined {
    const part = this.#parts.find((each) => each.id === id);
    if (part === undefined || (winding === "secondary" && part.kind !== "ideal-transformer")) return undefined;
    return open([{ sign: 1, quantity: { of: "current", part: id, winding } }], AMPERE);
  }

  call(letter: string, first: string, second: string | null, omega: number | null): Meaning | undefined {
    const [node, other] = [this.#nodeCalled(first), second === null ? undefined : this.#nodeCalled(second)];
    if (second !== null) {
      const isVoltage = (letter === "V" || letter === "U") && node !== undefined && other !== undefined;
      return isVoltage ? between(node, other, this.reference) : undefined;
    }
    const [name = "", winding] = first.split(/ +(?=primary$|secondary$)/);
    const id = this.#partCalled(name)?.id;
    switch (letter) {
      case "V":
      case "U":
        if (node !== undefined) return this.node(node);
        return id && this.voltage(id);
      case "I":
        return id && this.current(id, winding === "secondary" ? "secondary" : "primary");
      case "Z":
      case "K":
      case "N": {
        const part = this.#partCalled(first);
        const value = part && givenOf(part, letter, omega);
        return value && { kind: "given", value };
      }
      default:
        return undefined;
    }
  }

  #nodeCalled(name: string): NodeId | undefined {
    return called(this.nodes, name);
  }

  #partCalled(name: string): Part | undefined {
    const ids = this.#parts.map(({ id }) => id);
    const id = called(ids, name);
    return this.#parts.find((part) => part.id === id);
  }
}

/** The one of this name, as it is written or, where that is one only, in other letters. */
function called<N extends string>(names: readonly N[], name: string): N | undefined {
  const exact = names.find((each) => each === name);
  if (exact !== undefined) return exact;
  const [only, ...others] = names.filter((each) => comparableName(each) === comparableName(name));
  return others.length === 0 ? only : undefined;
}

/** `Z(C1)`, `k(G1)` and `n(T1)`: an impedance at the one frequency, a gain, a ratio. */
function givenOf(part: Part, letter: "Z" | "K" | "N", omega: number | null): Value | undefined {
  switch (part.kind) {
    case "resistor":
      return letter === "Z" ? unitValueOf("Ω", part.resistance) : undefined;
    case "inductor":
      if (letter !== "Z" || omega === null) return undefined;
      return complexValue(complex(0, omega * toNumber(part.inductance)), dimensionOf("Ω"));
    case "capacitor": {
      const susceptance = (omega ?? 0) * toNumber(part.capacitance);
      if (letter !== "Z" || susceptance === 0) return undefined;
      return complexValue(complex(0, -1 / susceptance), dimensionOf("Ω"));
    }
    case "vcvs":
    case "cccs":
      return letter === "K" ? unitValueOf("1", part.gain) : undefined;
    case "vccs":
      return letter === "K" ? unitValueOf("S", part.gain) : undefined;
    case "ccvs":
      return letter === "K" ? unitValueOf("Ω", part.gain) : undefined;
    case "ideal-transformer":
      return letter === "N" ? unitValueOf("1", part.ratio) : undefined;
    default:
      return undefined;
  }
}
