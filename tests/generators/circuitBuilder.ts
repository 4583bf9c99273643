import type { RawElement } from "../independent/elements";
import type { CircuitJson } from "./circuits";
import { pick } from "./values";

type Ends = { readonly from: number; readonly to: number };
type Fields = Omit<RawElement, "id" | "kind" | "nodes">;

const PREFIX: Readonly<Record<string, string>> = {
  resistor: "R",
  inductor: "L",
  capacitor: "C",
  "voltage-source": "V",
  "current-source": "I",
  vcvs: "E",
  vccs: "G",
  ccvs: "H",
  cccs: "F",
  "ideal-opamp": "U",
  "ideal-transformer": "T",
  switch: "S",
  wire: "W",
};

/** Builds a circuit part by part from random choices; whatever the choices, what it builds is connected and free of loops of ideal voltages. */
export class CircuitBuilder {
  readonly #elements: RawElement[] = [];
  readonly #nodes = ["0"];
  /** Nodes that ideal voltages tie together; a further one between two nodes of a group would close a loop. */
  readonly #groupOf = new Map<string, string>([["0", "0"]]);

  circuit(): CircuitJson {
    const [first, ...others] = this.#elements;
    const [from = "0", to = "0"] = first?.nodes ?? [];
    const id = first?.id ?? "";
    const last = others.at(-1) ?? first;
    return {
      format: "addend-circuit",
      version: 1,
      elements: this.#elements,
      reference: "0",
      wanted: [
        { name: "Ia", quantity: "current", through: id, from, to },
        { name: "Vb", quantity: "voltage", from: last?.nodes[0] ?? "0", to: last?.nodes[1] ?? "0" },
        { name: "Pc", quantity: "power", through: id },
      ],
    };
  }

  /** A resistor from a node that is there to a new one. */
  extend(from: number, resistance: string): string {
    const start = pick(this.#nodes, from);
    const node = this.#newNode();
    this.#add("resistor", [start, node], { value: `${resistance} Ω` });
    return node;
  }

  /** A part between two different nodes that are there. */
  join(kind: string, ends: Ends, fields: Fields): void {
    this.#add(kind, this.#endsOf(ends), fields);
  }

  drive({ kind, value, ...ends }: Ends & { kind: string; value: string }): void {
    if (kind === "current-source") this.join(kind, ends, { value: `${value} A` });
    else this.holdVoltage(kind, ends, { value: `${value} V` });
  }

  /** A part that fixes its voltage: straight between two nodes, or through 1 Ω where it would close a loop of such parts. */
  holdVoltage(kind: string, ends: Ends, fields: Fields): void {
    const [from, to] = this.#endsOf(ends);
    const start = this.#group(from) === this.#group(to) ? this.extend(this.#nodes.indexOf(from), "1") : from;
    this.#tie(start, to);
    this.#add(kind, [start, to], fields);
  }

  follow(plan: Ends & { kind: string; control: number; controlTo: number; direction: string; gain: string }): void {
    const { kind, gain } = plan;
    const isVoltage = kind === "vcvs" || kind === "vccs";
    const followed = this.#elements.filter(
      ({ kind: other }) => other !== "ideal-opamp" && other !== "ideal-transformer",
    );
    const control = isVoltage
      ? { voltage: this.#endsOf({ from: plan.control, to: plan.controlTo }) }
      : { current: pick(followed, plan.control).id, direction: plan.direction };
    const unit = { vccs: { gain_unit: "S" }, ccvs: { gain_unit: "Ω" } }[kind];
    const fields = { control, gain, ...unit };
    if (kind === "vccs" || kind === "cccs") this.join(kind, plan, fields);
    else this.holdVoltage(kind, plan, fields);
  }

  /** An op amp with a resistor from its output back to in−: inverting from the input node, or not inverting. */
  amplify(plan: { input: number; isInverting: boolean; first: string; second: string }): void {
    const input = pick(this.#nodes, plan.input);
    const inMinus = this.#newNode();
    const out = this.#newNode();
    const [inPlus, end] = plan.isInverting ? ["0", input] : [input, "0"];
    this.#add("resistor", [end, inMinus], { value: `${plan.first} Ω` });
    this.#add("resistor", [inMinus, out], { value: `${plan.second} Ω` });
    this.#add("ideal-opamp", [inPlus, inMinus, out], {});
    this.#tie(inPlus, inMinus);
    this.#tie(out, "0");
  }

  /** A transformer whose secondary feeds a resistor and is tied to the rest by its − end, or by nothing. */
  transform(plan: Ends & { secondary: number; isIsolated: boolean; ratio: string; load: string }): void {
    const [from, to] = this.#endsOf(plan);
    const minus = plan.isIsolated ? this.#privateNode() : pick(this.#nodes, plan.secondary);
    const plus = plan.isIsolated ? this.#privateNode() : this.#newNode();
    this.#add("ideal-transformer", [from, to, plus, minus], { ratio: plan.ratio });
    this.#add("resistor", [plus, minus], { value: `${plan.load} Ω` });
    if (!plan.isIsolated) this.#tie(plus, minus);
  }

  /** A wire or closed switch in series with a resistor, or an open switch anywhere. */
  switchOrWire({ kind, value, ...ends }: Ends & { kind: string; value: string }): void {
    if (kind === "open") {
      this.join("switch", ends, { state: "open" });
      return;
    }
    const [start, to] = this.#endsOf(ends);
    const node = this.extend(this.#nodes.indexOf(start), value);
    this.#tie(node, to);
    if (kind === "wire") this.#add("wire", [node, to], {});
    else this.#add("switch", [node, to], { state: "closed" });
  }

  #add(kind: string, nodes: readonly string[], fields: Fields): void {
    const number = this.#elements.filter((element) => element.kind === kind).length + 1;
    this.#elements.push({ id: `${PREFIX[kind]}${number}`, kind, nodes, ...fields });
  }

  #endsOf({ from, to }: Ends): [string, string] {
    const start = pick(this.#nodes, from);
    return [
      start,
      pick(
        this.#nodes.filter((node) => node !== start),
        to,
      ),
    ];
  }

  #newNode(): string {
    const node = this.#privateNode();
    this.#nodes.push(node);
    return node;
  }

  /** A node that no later part is joined to. */
  #privateNode(): string {
    const node = `${this.#groupOf.size}`;
    this.#groupOf.set(node, node);
    return node;
  }

  #group(node: string): string {
    const parent = this.#groupOf.get(node) ?? node;
    return parent === node ? node : this.#group(parent);
  }

  #tie(a: string, b: string): void {
    this.#groupOf.set(this.#group(a), this.#group(b));
  }
}
