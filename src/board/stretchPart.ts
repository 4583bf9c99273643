import type { NewPart, Point, StretchReading } from "../../shared/board";

/**
 * The part that a stretch and its text make. A stretch runs the way its source drives: from − to + for a voltage
 * source, from tail to head for a current source; so the `plus` terminal of a voltage source is where it ends, that of
 * every other part where it starts.
 */
export function stretchedPart(
  from: Point,
  to: Point,
  reading: Extract<StretchReading, { readonly make: "part" }>,
): NewPart {
  const { kind, value } = reading;
  const ends = kind === "voltage-source" ? { from: to, to: from } : { from, to };
  return { shape: "line", kind, name: null, value, ...ends };
}
