import { type Acting, joinedName } from "./acting";
import type { Sketch, SketchElement } from "./line";
import { sketchElement } from "./opening";
import { pieceImpedance } from "./portImpedance";
import { partsOf } from "./portSteps";
import { type Port, withInner } from "./ports";

/** A source and its resistance that stand for another source with its own. */
export type Transformation = {
  /** The source that goes. */
  readonly driver: string;
  readonly source: SketchElement;
  readonly resistance: SketchElement;
};

/** Keeps the circuit as it stands while its pieces are taken together. */
export class Sketcher<T> {
  private elements: readonly SketchElement[];
  private readonly acting: Acting<T>;
  private readonly ports: ReadonlyMap<number, Port>;

  constructor(acting: Acting<T>, roots: readonly Port[]) {
    this.acting = acting;
    this.ports = new Map(roots.flatMap(withInner).map((port) => [port.id, port]));
    this.elements = acting.live.map((i) => sketchElement(acting, i));
  }

  /** The circuit after a source transformation. */
  transform({ driver, source, resistance }: Transformation): Sketch {
    const isGone = ({ id, of }: SketchElement): boolean =>
      id === driver || of.every((part) => resistance.of.includes(part));
    const left = this.elements.filter((element) => !isGone(element));
    this.elements = [...left, source, resistance];
    return { elements: this.elements };
  }

  /** The circuit with a piece drawn as one. Null for a piece that has no place of its own in it. */
  combine(id: number): Sketch | null {
    const port = this.ports.get(id);
    if (port === undefined || port.image !== "none") return null;
    const { acting } = this;
    const of = partsOf(acting, port);
    const isInside = (element: SketchElement): boolean => element.of.every((part) => of.includes(part));
    const value = acting.numerals.figure(pieceImpedance(acting, port), "Ω").text;
    const nodes = [joinedName(acting, port.from), joinedName(acting, port.to)];
    const kind = acting.set.stimulus.frequency === null ? "resistor" : "impedance";
    this.elements = [
      ...this.elements.filter((element) => !isInside(element)),
      { id: port.name.text, kind, nodes, value, of },
    ];
    return { elements: this.elements };
  }
}
