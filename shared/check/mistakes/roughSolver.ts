import type { Circuit, NodeId, Part, PartId, PortKind, Wanted } from "../../circuit";
import { unreachable } from "../../circuit";
import { checkCircuit } from "../../circuit/check";
import { toNumber } from "../../quantity";
import { measureOf, type Stimulus } from "../../solve";
import { type Complex, complex, conjugate, multiplyComplex } from "../../solve/complex";
import { DC, omegaOf } from "../../solve/network";
import { shortedCircuit } from "../../solve/ports";
import { frequenciesOf, hasConstantPart } from "../../solve/solve";
import { type Rough, roughPoint, SLACK, sumOfRough } from "./rough";
import { RoughEquations } from "./roughEquations";

/**
 * One term of the current law at a node changed: the current of a part left out, or what is added to the factors of the
 * two voltages in it, as shares of 1/R.
 */
export type RoughSlip = { readonly part: PartId; readonly node: NodeId } & (
  | { readonly current: true }
  | { readonly current: false; readonly own: number; readonly other: number }
);

/** Answers about circuits in doubles, many a millisecond. Keeps nothing of a circuit but the room that it took. */
export class RoughSolver {
  readonly #equations = new RoughEquations();

  /**
   * What a circuit gives for a wanted quantity, without looking for problems in it: where `amountIn` finds a value this
   * is it, but for rounding. Null where nothing is known.
   */
  answer(circuit: Circuit, wanted: Wanted, slip: RoughSlip | null = null): Rough | null {
    if (wanted.kind === "short-circuit-current" || wanted.kind === "norton") {
      const { shorted, current } = shortedCircuit(circuit, wanted);
      return this.answer(shorted, { name: null, ...current }, slip);
    }
    const reference = circuit.reference ?? checkCircuit(circuit).reference;
    if (reference === null) return null;
    const measure = measureOf(circuit);
    const points: Rough[] = [];
    for (const stimulus of stimuliOf(circuit)) {
      this.#equations.write(circuit, reference, stimulus, isSeenFromPort(wanted) ? null : measure);
      if (isSeenFromPort(wanted)) this.#equations.addTestCurrent(wanted.from, wanted.to);
      if (slip !== null) this.#slip(circuit, slip);
      const value = this.#equations.solve() ? this.#read(circuit, wanted, stimulus, measure) : null;
      if (value === null) return null;
      points.push(value);
    }
    return sumOfRough(points);
  }

  #slip({ parts }: Circuit, slip: RoughSlip): void {
    const { part: id, node } = slip;
    const part = parts.find((each) => each.id === id);
    if (slip.current) {
      if (part?.kind === "voltage-source") this.#equations.leaveOut(node, part);
      return;
    }
    const { own, other } = slip;
    if (part?.kind !== "resistor") return;
    const far = part.plus === node ? part.minus : part.plus;
    const conductance = 1 / toNumber(part.resistance);
    this.#equations.addToLaw(node, node, own * conductance);
    this.#equations.addToLaw(node, far, other * conductance);
  }

  #read({ parts }: Circuit, wanted: Wanted, { omega }: Stimulus, measure: "peak" | "rms"): Rough | null {
    const equations = this.#equations;
    switch (wanted.kind) {
      case "current": {
        const part = parts.find(({ id }) => id === wanted.through);
        if (part === undefined) return null;
        const { re, im } = equations.currentIn(part, wanted.winding);
        const value = wanted.direction === "forward" ? complex(re, im) : complex(-re, -im);
        return roughPoint(value, omega, SLACK * equations.largestCurrent);
      }
      case "power": {
        const part = parts.find(({ id }) => id === wanted.of);
        if (part === undefined) return null;
        const factor = omega !== 0 && measure === "peak" ? 0.5 : 1;
        const value = complex(factor * this.#power(part));
        // A mean power is no phasor, whatever the frequency.
        return roughPoint(value, 0, SLACK * equations.largestVoltage * equations.largestCurrent);
      }
      case "voltage":
      case "open-circuit-voltage":
      case "thevenin":
      case "resistance":
      case "impedance":
      case "maximum-power-load": {
        const across = equations.voltageBetween(wanted.from, wanted.to);
        if (across === null) return null;
        const value = wanted.kind === "maximum-power-load" ? conjugate(across) : across;
        return roughPoint(value, omega, SLACK * equations.largestVoltage);
      }
      case "short-circuit-current":
      case "norton":
        return null;
      default:
        return unreachable(wanted);
    }
  }

  /** Re(v · conjugate i), both windings of a transformer together. */
  #power(part: Part): number {
    const times = (voltage: Complex | null, current: Complex): number =>
      voltage === null ? 0 : multiplyComplex(voltage, conjugate(current)).re;
    if (part.kind === "ideal-transformer") {
      const { primary, secondary } = part;
      return (
        times(this.#equations.voltageBetween(primary.plus, primary.minus), this.#equations.currentIn(part, "primary")) +
        times(
          this.#equations.voltageBetween(secondary.plus, secondary.minus),
          this.#equations.currentIn(part, "secondary"),
        )
      );
    }
    const voltage =
      part.kind === "ideal-opamp"
        ? this.#equations.voltageOf(part.out)
        : this.#equations.voltageBetween(part.plus, part.minus);
    return times(voltage, this.#equations.currentIn(part, "primary"));
  }
}

function stimuliOf(circuit: Circuit): readonly Stimulus[] {
  const frequencies = frequenciesOf(circuit);
  const others = frequencies.map((frequency) => ({ frequency, omega: omegaOf(frequency) }));
  return hasConstantPart(circuit, frequencies) ? [DC, ...others] : others;
}

type Seen = Extract<Wanted, { kind: PortKind }> & { readonly kind: "resistance" | "impedance" | "maximum-power-load" };

/** What is seen from two nodes with the sources zeroed, by 1 A into them. */
function isSeenFromPort(wanted: Wanted): wanted is Seen {
  return wanted.kind === "resistance" || wanted.kind === "impedance" || wanted.kind === "maximum-power-load";
}
