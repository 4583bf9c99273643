import type { Circuit, CurrentControl, NodeId, Part, PartId, VoltageControl, Winding } from "../../circuit";
import { unreachable } from "../../circuit";
import { type SourceValue, toNumber } from "../../quantity";
import type { Stimulus } from "../../solve";
import { type Complex, complex } from "../../solve/complex";
import { actsAt } from "../../solve/network";
import { phasorOf } from "../../solve/solve";
import { DenseSystem } from "./denseSystem";
import type { TwoEnded } from "./target";

/**
 * The equations of a circuit at one frequency in doubles: the current law at each node but the reference, and the law of
 * each part whose current is an unknown, which is every part but an admittance or an open. Wires are parts like others.
 * Written for speed: one object serves for circuit after circuit, and makes nothing on the way.
 */
export class RoughEquations {
  readonly #system = new DenseSystem();
  readonly #placeOfNode = new Map<NodeId, number>();
  /** Of its own current; of a transformer that of the primary, the secondary's being the next. */
  readonly #placeOfPart = new Map<PartId, number>();
  /** Of the parts that are one, an open counting as 0 S; every other part has a current of its own. */
  readonly #admittances = new Map<PartId, Complex>();
  #parts: readonly Part[] = [];
  #stimulus: Stimulus = { frequency: null, omega: 0 };
  #nodes = 0;
  /** The largest voltage and current that stand in the equations, or that those between them make. */
  largestVoltage = 0;
  largestCurrent = 0;

  /** Writes the equations; with null for the measure of the phasors, all independent sources are zeroed. */
  write({ parts }: Circuit, reference: NodeId, stimulus: Stimulus, measure: "peak" | "rms" | null): void {
    this.#parts = parts;
    this.#stimulus = stimulus;
    this.#placeOfNode.clear();
    this.#placeOfPart.clear();
    this.#placeOfNode.set(reference, -1);
    this.#nodes = 0;
    this.largestVoltage = 0;
    this.largestCurrent = 0;
    for (const part of parts) this.#placeNodes(part);
    let order = this.#nodes;
    this.#admittances.clear();
    for (const part of parts) {
      const admittance = this.#admittanceOf(part);
      if (admittance !== null) {
        this.#admittances.set(part.id, admittance);
        continue;
      }
      this.#placeOfPart.set(part.id, order);
      order += part.kind === "ideal-transformer" ? 2 : 1;
    }
    this.#system.begin(order, stimulus.frequency === null);
    for (const part of parts) this.#writePart(part, measure);
  }

  /** 1 A that enters the circuit at one node and leaves it at another. */
  addTestCurrent(into: NodeId, outOf: NodeId): void {
    this.largestCurrent = Math.max(this.largestCurrent, 1);
    this.#system.add(this.#place(into), this.#system.order, 1);
    this.#system.add(this.#place(outOf), this.#system.order, -1);
  }

  /** Adds to the factor of a node's voltage in the current law of a node, whose currents are counted outwards. */
  addToLaw(law: NodeId, voltage: NodeId, conductance: number): void {
    this.#system.add(this.#place(law), this.#place(voltage), conductance);
  }

  /** Leaves the current of a part, which has one of its own, out of the law of one of its nodes. */
  leaveOut(law: NodeId, { id, plus }: TwoEnded): void {
    this.#system.add(this.#place(law), this.#placeOfPart.get(id) ?? -1, law === plus ? -1 : 1);
  }

  /** False where the equations contradict one another; what nothing determines counts 0. */
  solve(): boolean {
    if (!this.#system.solve()) return false;
    let [least, most] = [Number.POSITIVE_INFINITY, 0];
    for (const { re, im } of this.#admittances.values()) {
      const size = Math.abs(re) + Math.abs(im);
      if (size === 0) continue;
      least = Math.min(least, size);
      most = Math.max(most, size);
    }
    const voltage = this.#largest(0, this.#nodes, this.largestVoltage);
    const current = this.#largest(this.#nodes, this.#system.order, this.largestCurrent);
    this.largestCurrent = Math.max(current, most * voltage);
    this.largestVoltage = Math.max(voltage, current / least);
    return true;
  }

  voltageOf(node: NodeId): Complex | null {
    return this.#placeOfNode.has(node) ? this.#at(this.#place(node)) : null;
  }

  /** Null where one of the nodes is not there. */
  voltageBetween(from: NodeId, to: NodeId): Complex | null {
    const [a, b] = [this.voltageOf(from), this.voltageOf(to)];
    return a && b && complex(a.re - b.re, a.im - b.im);
  }

  /** Through a part from plus to minus. */
  currentIn(part: Part, winding: Winding): Complex {
    const admittance = this.#admittances.get(part.id);
    if (admittance === undefined)
      return this.#at((this.#placeOfPart.get(part.id) ?? -1) + (winding === "secondary" ? 1 : 0));
    const voltage = "plus" in part ? this.voltageBetween(part.plus, part.minus) : null;
    const { re, im } = voltage ?? NOTHING;
    return complex(admittance.re * re - admittance.im * im, admittance.re * im + admittance.im * re);
  }

  #placeNodes(part: Part): void {
    switch (part.kind) {
      case "ideal-opamp":
        this.#placeNode(part.inPlus);
        this.#placeNode(part.inMinus);
        this.#placeNode(part.out);
        return;
      case "ideal-transformer":
        this.#placePair(part.primary);
        this.#placePair(part.secondary);
        return;
      case "vcvs":
      case "vccs":
        this.#placePair(part.control);
        this.#placePair(part);
        return;
      default:
        this.#placePair(part);
    }
  }

  #placePair({ plus, minus }: VoltageControl): void {
    this.#placeNode(plus);
    this.#placeNode(minus);
  }

  #placeNode(node: NodeId): void {
    if (!this.#placeOfNode.has(node)) this.#placeOfNode.set(node, this.#nodes++);
  }

  #admittanceOf(part: Part): Complex | null {
    const { frequency, omega } = this.#stimulus;
    switch (part.kind) {
      case "resistor":
        return part.resistance.n === 0n ? null : complex(1 / toNumber(part.resistance));
      case "capacitor":
        return frequency === null ? NOTHING : complex(0, omega * toNumber(part.capacitance));
      case "inductor": {
        const reactance = frequency === null ? 0 : omega * toNumber(part.inductance);
        return reactance === 0 ? null : complex(0, -1 / reactance);
      }
      case "switch":
        return part.state === "open" ? NOTHING : null;
      default:
        return null;
    }
  }

  #writePart(part: Part, measure: "peak" | "rms" | null): void {
    if (part.kind === "ideal-opamp") this.#writeOpAmp(part);
    else if (part.kind === "ideal-transformer") this.#writeTransformer(part);
    else {
      const admittance = this.#admittances.get(part.id);
      if (admittance === undefined) this.#writeLaw(part, measure);
      else this.#writeAdmittance(part, admittance);
    }
  }

  #writeAdmittance(part: VoltageControl, { re, im }: Complex): void {
    const [plus, minus] = [this.#place(part.plus), this.#place(part.minus)];
    this.#system.add(plus, plus, re, im);
    this.#system.add(minus, minus, re, im);
    this.#system.add(plus, minus, -re, -im);
    this.#system.add(minus, plus, -re, -im);
  }

  /** The law of a part whose current is an unknown: its voltage, or its current, is what it is given or follows. */
  #writeLaw(part: TwoEnded, measure: "peak" | "rms" | null): void {
    const own = this.#leaving(part.id, 0, this.#place(part.plus), this.#place(part.minus));
    const fixesCurrent = part.kind === "current-source" || part.kind === "vccs" || part.kind === "cccs";
    if (fixesCurrent) this.#system.add(own, own, 1);
    else this.#addPair(own, part, 1);
    switch (part.kind) {
      case "voltage-source":
        this.largestVoltage = Math.max(this.largestVoltage, this.#drive(own, part.voltage, measure));
        break;
      case "current-source":
        this.largestCurrent = Math.max(this.largestCurrent, this.#drive(own, part.current, measure));
        break;
      case "vcvs":
      case "vccs":
        this.#addPair(own, part.control, -toNumber(part.gain));
        break;
      case "ccvs":
      case "cccs":
        this.#follow(own, part.control, -toNumber(part.gain));
        break;
      case "resistor":
      case "inductor":
      case "switch":
      case "wire":
        break;
      case "capacitor":
        throw new Error("writeLaw: a capacitor is an admittance");
      default:
        unreachable(part);
    }
  }

  /** The unknown current of a part, counted out of one node and into the other. */
  #leaving(id: PartId, offset: number, plus: number, minus: number): number {
    const own = (this.#placeOfPart.get(id) as number) + offset;
    this.#system.add(plus, own, 1);
    this.#system.add(minus, own, -1);
    return own;
  }

  #writeOpAmp({ id, inPlus, inMinus, out }: Extract<Part, { kind: "ideal-opamp" }>): void {
    const own = this.#leaving(id, 0, this.#place(out), -1);
    this.#addPair(own, { plus: inPlus, minus: inMinus }, 1);
  }

  #writeTransformer({ id, primary, secondary, ratio }: Extract<Part, { kind: "ideal-transformer" }>): void {
    const first = this.#leaving(id, 0, this.#place(primary.plus), this.#place(primary.minus));
    const second = this.#leaving(id, 1, this.#place(secondary.plus), this.#place(secondary.minus));
    this.#addPair(first, primary, 1);
    this.#addPair(first, secondary, -toNumber(ratio));
    this.#system.add(second, second, 1);
    this.#system.add(second, first, toNumber(ratio));
  }

  #addPair(row: number, { plus, minus }: VoltageControl, factor: number): void {
    this.#system.add(row, this.#place(plus), factor);
    this.#system.add(row, this.#place(minus), -factor);
  }

  /** Adds a current, so many times, to a law. A control that is not there gives nothing to follow. */
  #follow(row: number, { part: id, direction }: CurrentControl, gain: number): void {
    const part = this.#parts.find((each) => each.id === id);
    if (part === undefined) return;
    const factor = direction === "forward" ? gain : -gain;
    const admittance = this.#admittances.get(id);
    if (admittance === undefined) {
      this.#system.add(row, this.#placeOfPart.get(id) ?? -1, factor);
    } else if ("plus" in part) {
      const [re, im] = [factor * admittance.re, factor * admittance.im];
      this.#system.add(row, this.#place(part.plus), re, im);
      this.#system.add(row, this.#place(part.minus), -re, -im);
    }
  }

  /** Adds a source's value to the right-hand side of its law; gives its size. */
  #drive(row: number, value: SourceValue<"V"> | SourceValue<"A">, measure: "peak" | "rms" | null): number {
    if (measure === null || !actsAt(value, this.#stimulus)) return 0;
    const { re, im } = value.kind === "dc" ? complex(toNumber(value.value)) : phasorOf(value, measure);
    this.#system.add(row, this.#system.order, re, im);
    return Math.abs(re) + Math.abs(im);
  }

  #place(node: NodeId): number {
    return this.#placeOfNode.get(node) ?? -1;
  }

  #at(place: number): Complex {
    if (place < 0) return NOTHING;
    return complex(this.#system.xRe[place] as number, this.#system.xIm[place] as number);
  }

  #sizeAt(place: number): number {
    return Math.abs(this.#system.xRe[place] as number) + Math.abs(this.#system.xIm[place] as number);
  }

  #largest(from: number, to: number, least: number): number {
    let most = least;
    for (let place = from; place < to; place++) most = Math.max(most, this.#sizeAt(place));
    return most;
  }
}

const NOTHING = complex(0);
