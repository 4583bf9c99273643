import { type Branch, isSource } from "./branch";
import type { Dice } from "./dice";
import { type Scale, Sketch } from "./sketch";

/** What stands between two main nodes of a circuit as textbooks draw them. */
export type SlotKind =
  | "resistor"
  /** Two resistors in series. */
  | "resistors"
  | "threeResistors"
  /** A voltage source with a resistor in series. */
  | "voltage"
  | "current"
  /** A current source with a resistor in series. */
  | "currentWithResistor"
  /** A voltage source with nothing in series. */
  | "bareVoltage"
  /** A voltage source with a resistor across it. */
  | "heldVoltage"
  | "vcvs"
  | "vccs"
  | "ccvs"
  | "cccs"
  | "inductor"
  | "capacitor"
  /** A resistor in series with an inductor, or a capacitor. */
  | "coil"
  | "condenser"
  | "capacitorsInSeries"
  | "capacitorsInParallel";

export type Slot = {
  readonly kind: SlotKind;
  readonly from: string;
  readonly to: string;
  readonly ids: readonly string[];
};
export type Textbook = {
  readonly branches: readonly Branch[];
  readonly slots: readonly Slot[];
  readonly main: readonly string[];
};

export type Wishes = {
  /** Main nodes beside "0". */
  readonly nodes: 1 | 2;
  readonly sources: readonly ("voltage" | "current")[];
  /** What else must be there. */
  readonly include?: readonly SlotKind[];
  /** What the other places between main nodes are filled with. */
  readonly fillers?: readonly SlotKind[];
  readonly scale?: Scale;
};

const DEPENDENT: readonly SlotKind[] = ["vcvs", "vccs", "ccvs", "cccs"];

/** A random circuit of main nodes with branches between them. It may still have no solution, or none worth asking for. */
export function textbook(
  dice: Dice,
  { nodes, sources, include = [], fillers = ["resistor", "resistors"], scale }: Wishes,
): Textbook {
  const sketch = new Sketch(dice, scale);
  const main = nodes === 1 ? ["a"] : ["a", "b"];
  const needed: SlotKind[] = [...sources, ...include];
  const pairs: [string, string][] =
    nodes === 1
      ? [["a", "0"]]
      : [
          ["a", "0"],
          ["a", "b"],
          ["b", "0"],
        ];
  const count = Math.max(needed.length + (nodes === 1 ? 1 : 2), pairs.length);
  const kinds = [...needed, ...Array.from({ length: count - needed.length }, () => dice.pick(fillers))];
  const places = [...pairs, ...Array.from({ length: count - pairs.length }, () => dice.pick(pairs))];
  // What follows another branch comes last, so that there is one to follow.
  const order = dice.shuffled(places).map((place, k) => ({ place, kind: kinds[k] as SlotKind }));
  const isLate = ({ kind }: { kind: SlotKind }): boolean => DEPENDENT.includes(kind);
  const slots = [...order.filter((each) => !isLate(each)), ...order.filter(isLate)].map(({ place, kind }): Slot => {
    const [from, to] = place;
    return { kind, from, to, ids: drawn(sketch, kind, from, to, main) };
  });
  return { branches: sketch.branches, slots, main };
}

function drawn(sketch: Sketch, kind: SlotKind, from: string, to: string, main: readonly string[]): readonly string[] {
  const { dice } = sketch;
  const [start, end] = dice.chance(0.5) ? [from, to] : [to, from];
  switch (kind) {
    case "resistor":
      return [sketch.resistor(start, end)];
    case "inductor":
      return [sketch.inductor(start, end)];
    case "capacitor":
      return [sketch.capacitor(start, end)];
    case "current":
      return [sketch.currentSource(start, end)];
    case "bareVoltage":
      return [sketch.voltageSource(start, end)];
    case "heldVoltage":
      return [sketch.voltageSource(start, end), sketch.resistor(start, end)];
    case "capacitorsInParallel":
      return [sketch.capacitor(start, end), sketch.capacitor(start, end)];
    case "threeResistors": {
      const [first, second] = [sketch.innerNode(), sketch.innerNode()];
      return [sketch.resistor(start, first), sketch.resistor(first, second), sketch.resistor(second, end)];
    }
    default: {
      const middle = sketch.innerNode();
      return inSeries(sketch, kind, [start, middle, end], main);
    }
  }
}

type SeriesKind = Exclude<
  SlotKind,
  | "resistor"
  | "threeResistors"
  | "inductor"
  | "capacitor"
  | "current"
  | "bareVoltage"
  | "heldVoltage"
  | "capacitorsInParallel"
>;

function inSeries(
  sketch: Sketch,
  kind: SeriesKind,
  [start, middle, end]: readonly [string, string, string],
  main: readonly string[],
): readonly string[] {
  const { dice } = sketch;
  switch (kind) {
    case "resistors":
      return [sketch.resistor(start, middle), sketch.resistor(middle, end)];
    case "voltage":
      return dice.chance(0.5)
        ? [sketch.voltageSource(middle, end), sketch.resistor(start, middle)]
        : [sketch.voltageSource(end, middle), sketch.resistor(start, middle)];
    case "currentWithResistor":
      return [sketch.currentSource(middle, end), sketch.resistor(start, middle)];
    case "coil":
      return [sketch.resistor(start, middle), sketch.inductor(middle, end)];
    case "condenser":
      return [sketch.resistor(start, middle), sketch.capacitor(middle, end)];
    case "capacitorsInSeries":
      return [sketch.capacitor(start, middle), sketch.capacitor(middle, end)];
    default:
      return dependent(sketch, kind, [start, middle, end], main);
  }
}

function dependent(
  sketch: Sketch,
  kind: "vcvs" | "vccs" | "ccvs" | "cccs",
  [start, middle, end]: readonly [string, string, string],
  main: readonly string[],
): readonly string[] {
  const { dice } = sketch;
  const followed = dice.pick(sketch.branches.filter(({ law }) => law.kind === "resistor")).id;
  const node = dice.pick(main);
  switch (kind) {
    case "vcvs":
      return [
        sketch.dependent("E", middle, end, { kind, gain: dice.pick([0.5, 1.5, 2, 3]), plus: node, minus: "0" }),
        sketch.resistor(start, middle),
      ];
    case "ccvs":
      return [
        sketch.dependent("H", middle, end, { kind, gain: dice.pick([500, 1500, 2000]), through: followed }),
        sketch.resistor(start, middle),
      ];
    case "vccs":
      return [
        sketch.dependent("G", start, end, { kind, gain: dice.pick([0.0001, 0.0002, 0.0005]), plus: node, minus: "0" }),
      ];
    case "cccs":
      return [sketch.dependent("F", start, end, { kind, gain: dice.pick([0.5, 2, 3]), through: followed })];
  }
}

const PLAIN: readonly SlotKind[] = ["resistor", "resistors", "threeResistors"];

/** The resistors that stand in the circuit by themselves and not with a source. */
export function plainResistors({ slots }: Textbook): readonly string[] {
  return slots.filter(({ kind }) => PLAIN.includes(kind)).flatMap(({ ids }) => ids);
}

export const sourceIds = ({ branches }: Textbook): string[] => branches.filter(isSource).map(({ id }) => id);
