import fc from "fast-check";
import {
  type Circuit,
  type CircuitFile,
  type Drawing,
  isIndependentSource,
  nodeId,
  type Part,
  type PartId,
  type Placement,
  type Point,
  partId,
  type SourceGroup,
  type Turn,
  terminalsOf,
  type Unanswerable,
  type Wanted,
} from "../../shared/circuit";
import { type Quantity, quantity, rational, type SourceValue, type UnitSymbol } from "../../shared/quantity";

// Circuit files as the reader would give them: names unique, what is wanted there, frequencies positive.

const names = fc.constantFrom("a", "b", "c", "d", "Ausgang", "n 5", "0");
const directions = fc.constantFrom("forward" as const, "backward" as const);
const point: fc.Arbitrary<Point> = fc.tuple(fc.integer({ min: -50, max: 50 }), fc.integer({ min: -50, max: 50 }));

function quantities<U extends UnitSymbol>(unit: U): fc.Arbitrary<Quantity<U>> {
  const numerator = fc.oneof(fc.bigInt(-1000n, 1000n), fc.bigInt(-(10n ** 12n), 10n ** 12n));
  const denominator = fc.constantFrom(1n, 2n, 3n, 7n, 1000n, 4700000n, 10n ** 12n, 999983n);
  return fc.tuple(numerator, denominator).map(([n, d]) => quantity(rational(n, d), unit));
}

function nonZero<U extends UnitSymbol>(unit: U): fc.Arbitrary<Quantity<U>> {
  return quantities(unit).filter((value) => value.n !== 0n);
}

function positive<U extends UnitSymbol>(unit: U): fc.Arbitrary<Quantity<U>> {
  return nonZero(unit).map((value) => (value.n > 0n ? value : quantity(rational(-value.n, value.d), unit)));
}

function sourceValues<U extends "V" | "A">(unit: U): fc.Arbitrary<SourceValue<U>> {
  const frequency = fc.oneof(
    positive("Hz").map((value) => ({ unit: "Hz" as const, value })),
    positive("rad/s").map((value) => ({ unit: "rad/s" as const, value })),
  );
  return fc.oneof(
    quantities(unit).map((value) => ({ kind: "dc" as const, value })),
    fc.record({
      kind: fc.constant("sinusoid" as const),
      amplitude: quantities(unit),
      measure: fc.constantFrom("peak" as const, "rms" as const),
      phase: quantities("°"),
      frequency,
    }),
  );
}

function partsCalled(id: PartId, ids: readonly PartId[]): fc.Arbitrary<Part> {
  const node = names.map(nodeId);
  const ends = { id: fc.constant(id), plus: node, minus: node };
  const voltage = fc.record({ plus: node, minus: node });
  const current = fc.record({ part: fc.constantFrom(...ids, partId("not there")), direction: directions });
  const kind = <K extends Part["kind"]>(name: K) => ({ kind: fc.constant(name) });
  return fc.oneof(
    fc.record({ ...kind("resistor"), ...ends, resistance: quantities("Ω") }),
    fc.record({ ...kind("capacitor"), ...ends, capacitance: nonZero("F") }),
    fc.record({ ...kind("inductor"), ...ends, inductance: nonZero("H") }),
    fc.record({ ...kind("voltage-source"), ...ends, voltage: sourceValues("V") }),
    fc.record({ ...kind("current-source"), ...ends, current: sourceValues("A") }),
    fc.record({ ...kind("vcvs"), ...ends, control: voltage, gain: quantities("1") }),
    fc.record({ ...kind("vccs"), ...ends, control: voltage, gain: quantities("S") }),
    fc.record({ ...kind("ccvs"), ...ends, control: current, gain: quantities("Ω") }),
    fc.record({ ...kind("cccs"), ...ends, control: current, gain: quantities("1") }),
    fc.record({ ...kind("ideal-opamp"), id: fc.constant(id), inPlus: node, inMinus: node, out: node }),
    fc.record({
      ...kind("ideal-transformer"),
      id: fc.constant(id),
      primary: voltage,
      secondary: voltage,
      ratio: nonZero("1"),
    }),
    fc.record({ ...kind("switch"), ...ends, state: fc.constantFrom("open" as const, "closed" as const) }),
    fc.record({ ...kind("wire"), ...ends }),
  );
}

const partLists: fc.Arbitrary<readonly Part[]> = fc
  .uniqueArray(fc.constantFrom("R1", "V1", "I1", "Lampe", "U 2", "τ", "b"), { minLength: 1, maxLength: 6 })
  .chain((texts) => {
    const ids = texts.map(partId);
    return fc.tuple(...ids.map((id) => partsCalled(id, ids)));
  });

function wantedLists(parts: readonly Part[]): fc.Arbitrary<readonly Wanted[]> {
  const nodes = [...new Set(parts.flatMap((part) => terminalsOf(part).map(({ node }) => node)))];
  const node = fc.constantFrom(...nodes);
  const ends = { from: node, to: node };
  const port = fc.constantFrom(
    "resistance" as const,
    "impedance" as const,
    "open-circuit-voltage" as const,
    "short-circuit-current" as const,
    "thevenin" as const,
    "norton" as const,
    "maximum-power-load" as const,
  );
  const name = fc.option(fc.constantFrom("Iy", "Vq", "P lamp", "Z"), { nil: null });
  const part = fc.constantFrom(...parts);
  const current = fc.tuple(part, directions, fc.boolean(), name).map(([through, direction, isSecondary, given]) => ({
    name: given,
    kind: "current" as const,
    through: through.id,
    winding: isSecondary && through.kind === "ideal-transformer" ? ("secondary" as const) : ("primary" as const),
    direction,
  }));
  const between = fc.oneof(
    fc.record({ name, kind: fc.constant("voltage" as const), ...ends }),
    fc.record({ name, kind: port, ...ends }),
  );
  const power = fc.record({ name, kind: fc.constant("power" as const), of: part.map(({ id }) => id) });
  return fc
    .array(fc.oneof(current, power, ...(nodes.length > 1 ? [between.filter(({ from, to }) => from !== to)] : [])), {
      maxLength: 4,
    })
    .map((list) =>
      list.filter(({ name: own }, i) => own === null || list.findIndex((other) => other.name === own) === i),
    );
}

function drawings(parts: readonly Part[]): fc.Arbitrary<Drawing | null> {
  const stretch = fc.tuple(point, fc.integer({ min: 1, max: 9 }), fc.boolean());
  const line = stretch.map(([[x, y], length, isLevel]): readonly [Point, Point] => [
    [x, y],
    isLevel ? [x + length, y] : [x, y - length],
  ]);
  const turn: fc.Arbitrary<Turn> = fc.constantFrom(0, 90, 180, 270);
  const placement = ({ id, kind }: Part): fc.Arbitrary<Placement> =>
    kind === "ideal-opamp" || kind === "ideal-transformer"
      ? fc.record({ part: fc.constant(id), shape: fc.constant("body" as const), at: point, turn, flip: fc.boolean() })
      : line.map(([from, to]) => ({ part: id, shape: "line" as const, from, to }));
  const placements = fc
    .tuple(...parts.map((part) => fc.option(placement(part), { nil: null })))
    .map((list) => list.filter((placed) => placed !== null));
  return fc.option(fc.record({ placements, wires: fc.array(line), reference: fc.option(point, { nil: null }) }), {
    nil: null,
  });
}

function unanswerables(parts: readonly Part[], wanted: readonly Wanted[]): fc.Arbitrary<readonly Unanswerable[]> {
  const through: string = parts[0]?.id ?? "";
  const timeConstant = (index: number): Unanswerable => ({
    index,
    name: `τ(${through})`,
    reason: "timeConstant",
    asked: { quantity: "time-constant", through },
  });
  const instant = (index: number): Unanswerable => ({
    index,
    name: "P0",
    reason: "instant",
    asked: { name: "P0", quantity: "power", through, time: "3 ms" },
  });
  return fc.constantFrom(
    [],
    [timeConstant(0)],
    [instant(0), timeConstant(1)],
    [timeConstant(wanted.length)],
    [timeConstant(0), instant(wanted.length + 1)],
  );
}

/** Groups that stand: two sources or more, not all, no two of the same. */
function groupLists(parts: readonly Part[]): fc.Arbitrary<readonly SourceGroup[]> {
  const sources = parts.filter(isIndependentSource).map(({ id }) => id);
  if (sources.length < 3) return fc.constant([]);
  const group = fc.subarray(sources, { minLength: 2, maxLength: sources.length - 1 });
  return fc.uniqueArray(group, { maxLength: 3, selector: (members) => members.join(" ") });
}

export const circuitFiles: fc.Arbitrary<CircuitFile> = partLists.chain((parts) => {
  const nodes = parts.flatMap((part) => terminalsOf(part).map(({ node }) => node));
  const reference = fc.option(fc.constantFrom(...nodes), { nil: null });
  const text = fc.option(fc.string({ maxLength: 30 }), { nil: null });
  return wantedLists(parts).chain((wanted) =>
    fc.record({
      title: text,
      statement: text,
      circuit: reference.map((node): Circuit => ({ parts, reference: node, wanted })),
      drawing: drawings(parts),
      unanswerable: unanswerables(parts, wanted),
      groups: groupLists(parts),
    }),
  );
});
