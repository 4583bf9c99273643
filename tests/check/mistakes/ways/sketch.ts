import type { Branch, Law, Wave } from "./branch";
import type { Dice } from "./dice";

/** The steps of the E12 series (IEC 60063). */
const E12 = [1, 1.2, 1.5, 1.8, 2.2, 2.7, 3.3, 3.9, 4.7, 5.6, 6.8, 8.2];
const VOLTS = [3, 4, 5, 6, 8, 9, 10, 12, 15, 16, 18, 20, 24];
const MILLIAMPERES = [1, 2, 3, 4, 5, 6, 8, 10, 12, 15];
const DEGREES = [-60, -45, -30, -20, 0, 15, 30, 45, 60, 75];

/** Constant sources with kilohms, or sinusoids with tens of ohms, millihenries and microfarads near 1000 rad/s. */
export type Scale = { readonly kind: "constant" } | { readonly kind: "sinusoid"; readonly omegas: readonly number[] };

/** A circuit that grows branch by branch; no two resistors, and no two sources of a kind, have one value. */
export class Sketch {
  readonly branches: Branch[] = [];
  readonly #ohms: number[];
  readonly #volts: number[];
  readonly #milliamperes: number[];
  readonly #reactive: number[];
  #sources = 0;
  #nodes = 0;

  constructor(
    readonly dice: Dice,
    readonly scale: Scale = { kind: "constant" },
  ) {
    const isConstant = scale.kind === "constant";
    this.#ohms = dice.shuffled([...E12, 10].map((step) => Math.round(step * (isConstant ? 1000 : 10))));
    this.#volts = dice.shuffled(VOLTS);
    this.#milliamperes = dice.shuffled(MILLIAMPERES);
    this.#reactive = dice.shuffled(E12);
  }

  /** A node between two branches that are in series. */
  innerNode(): string {
    this.#nodes++;
    return `n${this.#nodes}`;
  }

  resistor(from: string, to: string): string {
    return this.#add("R", from, to, { kind: "resistor", ohms: taken(this.#ohms) });
  }

  inductor(from: string, to: string): string {
    return this.#add("L", from, to, { kind: "inductor", henries: taken(this.#reactive) / 100 });
  }

  capacitor(from: string, to: string): string {
    return this.#add("C", from, to, { kind: "capacitor", farads: taken(this.#reactive) / 100000 });
  }

  voltageSource(from: string, to: string): string {
    return this.#add("V", from, to, { kind: "voltage-source", wave: this.#wave(taken(this.#volts)) });
  }

  currentSource(from: string, to: string): string {
    const size = taken(this.#milliamperes) / (this.scale.kind === "constant" ? 1000 : 10);
    return this.#add("I", from, to, { kind: "current-source", wave: this.#wave(size) });
  }

  dependent(name: string, from: string, to: string, law: Law): string {
    return this.#add(name, from, to, law);
  }

  #wave(peak: number): Wave {
    const { dice, scale } = this;
    if (scale.kind === "constant") return { peak, degrees: 0, omega: 0 };
    const omega = scale.omegas[this.#sources % scale.omegas.length] ?? 1000;
    this.#sources++;
    return { peak, degrees: dice.pick(DEGREES), omega };
  }

  #add(letter: string, from: string, to: string, law: Law): string {
    const number = this.branches.filter(({ id }) => id.startsWith(letter)).length + 1;
    const id = `${letter}${number}`;
    this.branches.push({ id, from, to, law });
    return id;
  }
}

function taken(values: number[]): number {
  const value = values.pop();
  if (value === undefined) throw new Error("no value left");
  return value;
}
