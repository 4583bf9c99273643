import fc from "fast-check";
import { type Command, entryId, type Point } from "../../shared/board";

const point: fc.Arbitrary<Point> = fc.record({ x: fc.integer({ min: 0, max: 12 }), y: fc.integer({ min: 0, max: 8 }) });
const anyId = fc.constantFrom("p1", "p2", "p3", "p4", "w1", "w2", "g1").map(entryId);
const direction = fc.constantFrom("forward" as const, "backward" as const);
const value = fc.constantFrom("1k", "9 V", "5 mA", "1/3 A", "nonsense", "");

const placePart = fc
  .record({
    id: fc.constantFrom("p1", "p2", "p3", "p4").map(entryId),
    kind: fc.constantFrom("resistor" as const, "voltage-source" as const, "current-source" as const),
    name: fc.constantFrom(null, "R1", "X"),
    value,
    from: point,
    reach: fc.integer({ min: -4, max: 4 }),
    isLevel: fc.boolean(),
  })
  .map(({ id, from, reach, isLevel, ...rest }): Command => {
    const to = isLevel ? { x: from.x + reach, y: from.y } : { x: from.x, y: from.y + reach };
    return { do: "placePart", id, part: { shape: "line", from, to, ...rest } };
  });

/** Any command to a small board, also one about entries that are not there. */
export const command: fc.Arbitrary<Command> = fc.oneof(
  { weight: 4, arbitrary: placePart },
  fc.record({
    do: fc.constant("placeWire" as const),
    id: fc.constantFrom("w1", "w2").map(entryId),
    points: fc.tuple(point, fc.integer({ min: 1, max: 6 })).map(([p, n]) => [p, { x: p.x + n, y: p.y }]),
  }),
  fc.record({ do: fc.constant("placeReference" as const), id: fc.constant(entryId("g1")), at: point }),
  fc.record({ do: fc.constant("setValue" as const), id: anyId, value }),
  fc.record({ do: fc.constant("rename" as const), id: anyId, name: fc.constantFrom("R1", "R2", "V1") }),
  fc.record({ do: fc.constant("reverse" as const), id: anyId }),
  fc.record({ do: fc.constant("move" as const), ids: fc.array(anyId, { maxLength: 3 }), by: point }),
  fc.record({ do: fc.constant("delete" as const), ids: fc.array(anyId, { maxLength: 2 }) }),
  fc.record({
    do: fc.constant("addGroup" as const),
    id: fc.constantFrom("s1", "s2").map(entryId),
    sources: fc.array(anyId, { maxLength: 4 }),
  }),
  fc.record({ do: fc.constant("removeGroup" as const), id: fc.constantFrom("s1", "s2").map(entryId) }),
  fc.record({
    do: fc.constant("setWanted" as const),
    id: fc.constantFrom("m1", "m2").map(entryId),
    name: fc.constantFrom(null, "Ix"),
    mark: fc.record({
      kind: fc.constant("current" as const),
      part: anyId,
      direction,
      winding: fc.constant("primary" as const),
    }),
  }),
);
