import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  applyCommand,
  type Board,
  type Command,
  carry,
  circuitOf,
  type EntryId,
  endsOf,
  entryId,
  isOnWire,
  LOCAL,
  middleOfEntries,
  type Placing,
  placed,
  pointText,
  readBoard,
  rearranging,
  terminalPoints,
} from "../../shared/board";
import { at, drawn, id, R, reference, TWO_SOURCES, V, wire } from "./builders";

function ids(): () => EntryId {
  let count = 0;
  return () => entryId(`new-${++count}`);
}

const shift = (x: number, y: number): Placing => ({ kind: "shift", by: at(x, y) });

function moved(commands: readonly Command[], chosen: readonly string[], placing: Placing): Board {
  const board = readBoard(drawn(...commands));
  const next = carry(board, new Set(chosen.map(id)), placing, ids());
  if (!next) throw new Error("the selection left the grid");
  return next;
}

const lineOf = (board: Board, name: string) => board.wires.find((each) => each.id === name)?.points;

/** Which terminals are joined: the parts' terminals by node, whatever the nodes are called. */
function partition(board: Board): readonly string[] {
  const { nodeAt } = circuitOf(board);
  const groups = new Map<string | null, string[]>();
  for (const part of board.parts) {
    terminalPoints(part).forEach((point, i) => {
      const node = nodeAt(point);
      groups.set(node, [...(groups.get(node) ?? []), `${part.id}.${i}`]);
    });
  }
  return [...groups.values()].map((group) => group.sort().join(" ")).sort();
}

describe("a part that is moved", () => {
  const series = [V("V1", "5 V", [0, 0], [0, 4]), wire("w", [0, 0], [4, 0]), R("R1", "1k", [4, 0], [8, 0])];

  it("draws a straight wire's end along its line", () => {
    const board = moved(series, ["R1"], shift(3, 0));
    expect(lineOf(board, "w")).toEqual([at(0, 0), at(7, 0)]);
    expect(board.wires).toHaveLength(1);
  });

  it("bends a straight wire where it leaves its line", () => {
    const board = moved(series, ["R1"], shift(2, 3));
    expect(lineOf(board, "w")).toEqual([at(0, 0), at(6, 0), at(6, 3)]);
  });

  it("slides the last corner of a bent wire", () => {
    const bent = [wire("w", [0, 0], [0, 4], [4, 4]), R("R1", "1k", [4, 4], [8, 4]), R("R2", "1k", [-4, 0], [0, 0])];
    expect(lineOf(moved(bent, ["R1"], shift(0, 2)), "w")).toEqual([at(0, 0), at(0, 6), at(4, 6)]);
  });

  it("is bridged by a new wire to a part that it touches directly", () => {
    const board = moved([R("R1", "1k", [0, 0], [4, 0]), R("R2", "1k", [4, 0], [8, 0])], ["R2"], shift(0, 2));
    expect(board.wires.map(({ points }) => points)).toEqual([[at(4, 2), at(4, 0)]]);
  });

  it("leaves a wire that others join where they join it", () => {
    const commands = [
      wire("rail", [0, 0], [12, 0]),
      R("R1", "1k", [4, 0], [4, 4]),
      R("R2", "1k", [12, 0], [12, 4]),
      R("R0", "1k", [0, 0], [0, 4]),
    ];
    const board = moved(commands, ["R2"], shift(0, 2));
    expect(lineOf(board, "rail")?.slice(0, 2)).toEqual([at(0, 0), at(12, 0)]);
    expect(partition(board)).toEqual(partition(readBoard(drawn(...commands))));
  });

  it("takes along the reference symbol that marks nothing else", () => {
    const board = moved([R("R1", "1k", [0, 0], [0, 4]), reference("g", 0, 4)], ["R1"], shift(3, 1));
    expect(board.references).toMatchObject([{ at: at(3, 5) }]);
    expect(board.wires).toEqual([]);
  });

  it("cannot leave the grid", () =>
    expect(carry(readBoard(drawn(...series)), new Set([id("R1")]), shift(9_999, 0), ids())).toBeNull());
});

it("a wire that is moved keeps hold of the parts at its ends with new pieces of its own", () => {
  const board = moved(
    [wire("w", [0, 0], [6, 0]), R("R1", "1k", [0, 0], [0, 4]), R("R2", "1k", [6, 0], [6, 4])],
    ["w"],
    shift(0, -2),
  );
  expect(board.wires.map(({ points }) => points)).toEqual([[at(0, 0), at(0, -2), at(6, -2), at(6, 0)]]);
});

it("a way that would pass over a terminal goes round it", () => {
  const commands = [
    R("R1", "1k", [0, 0], [4, 0]),
    wire("w", [4, 0], [6, 0]),
    R("R2", "1k", [6, 0], [10, 0]),
    R("R3", "1k", [5, 2], [5, 6]),
    R("R4", "1k", [6, 1], [6, -3]),
  ];
  const board = moved(commands, ["R2"], shift(0, 3));
  expect(partition(board)).toEqual(partition(readBoard(drawn(...commands))));
});

describe("a selection that is turned", () => {
  it("turns a quarter clockwise about its middle", () => {
    const board = readBoard(drawn(R("R1", "1k", [0, 0], [4, 0])));
    const about = middleOfEntries(board, new Set([id("R1")]));
    expect(about).toEqual(at(2, 0));
    const next = carry(board, new Set([id("R1")]), { kind: "turn", about: at(2, 0) }, ids());
    expect(next?.parts).toMatchObject([{ from: at(2, -2), to: at(2, 2) }]);
  });

  const block = {
    do: "placePart",
    id: id("A1"),
    part: { shape: "block", kind: "ideal-opamp", name: "A1", value: null, at: at(5, 5), turn: 90, flip: true },
  } as const;

  it.each(["turn", "mirror"] as const)("a block's terminals go where each of them would go by itself (%s)", (kind) => {
    const board = readBoard(drawn(block));
    const placing = { kind, about: at(3, 4) };
    const next = carry(board, new Set([id("A1")]), placing, ids());
    const terminals = (each: Board | null) => each?.parts.flatMap(terminalPoints);
    expect(terminals(next)).toEqual(terminals(board)?.map((point) => placed(point, placing)));
  });

  it("after four turns is where it was", () => {
    let board: Board | null = readBoard(drawn(...TWO_SOURCES));
    const before = partition(board);
    for (let turn = 0; turn < 4 && board; turn += 1) {
      board = carry(board, new Set([id("R1")]), { kind: "turn", about: at(2, -6) }, ids());
      expect(board && partition(board)).toEqual(before);
    }
    expect(board?.parts.find((part) => part.id === "R1")).toMatchObject({ from: at(0, 0), to: at(4, 0) });
  });
});

/** A mesh of squares six steps wide: each side a part with short wires, a wire or nothing. */
const mesh = fc.array(fc.constantFrom("part", "wire", "nothing"), { minLength: 17, maxLength: 17 }).map((sides) => {
  const places = [0, 1, 2].flatMap((row) =>
    [0, 1, 2].flatMap((column) => [
      ...(column < 2 ? [{ x: column * 6, y: row * 6, dx: 1, dy: 0 }] : []),
      ...(row < 2 ? [{ x: column * 6, y: row * 6, dx: 0, dy: 1 }] : []),
    ]),
  );
  return places.flatMap(({ x, y, dx, dy }, i): readonly Command[] => {
    const point = (n: number): [number, number] => [x + n * dx, y + n * dy];
    if (sides[i] === "wire") return [wire(`w${i}`, point(0), point(6))];
    if (sides[i] !== "part") return [];
    return [wire(`a${i}`, point(0), point(1)), R(`R${i}`, "1k", point(1), point(5)), wire(`b${i}`, point(5), point(6))];
  });
});

/** Whether the selection, in its new place, meets anything that it did not meet before. */
function meetsNew(board: Board, chosen: ReadonlySet<EntryId>, where: Placing): boolean {
  const isChosen = (entry: { readonly id: EntryId }) => chosen.has(entry.id);
  const others = board.wires.filter((each) => !isChosen(each)).map((each) => each.points);
  const chosenWires = board.wires.filter(isChosen).map((each) => each.points);
  const chosenPoints = [...board.parts.filter(isChosen).flatMap(terminalPoints), ...chosenWires.flatMap(endsOf)];
  const stay = [...board.parts.filter((part) => !isChosen(part)).flatMap(terminalPoints), ...others.flatMap(endsOf)];
  // Where the selection was joined to the middle of another wire, a new wire begins.
  const left = chosenPoints.filter((point) => others.some((line) => isOnWire(point, line)));
  const keys = new Set(stay.map(pointText));
  const newWires = chosenWires.map((line) => line.map((point) => placed(point, where)));
  const newPoints = chosenPoints.map((point) => placed(point, where));
  return (
    newPoints.some((point) => keys.has(pointText(point)) || others.some((line) => isOnWire(point, line))) ||
    [...stay, ...left].some((point) => newWires.some((line) => isOnWire(point, line)))
  );
}

const placing: fc.Arbitrary<Placing> = fc.oneof(
  fc.record({ x: fc.integer({ min: -8, max: 8 }), y: fc.integer({ min: -8, max: 8 }) }).map(({ x, y }) => shift(x, y)),
  fc
    .record({ x: fc.integer({ min: 0, max: 12 }), y: fc.integer({ min: 0, max: 12 }) })
    .map((about): Placing => ({ kind: "turn", about })),
);

it("moving and turning leave every terminal joined to the same others, where nothing new is touched", () => {
  fc.assert(
    fc.property(mesh, fc.infiniteStream(fc.boolean()), placing, (commands, picks, where) => {
      const doc = drawn(...commands);
      const board = readBoard(doc);
      const chosen = new Set(
        [...board.parts, ...board.wires].filter(() => picks.next().value).map((entry) => entry.id),
      );
      fc.pre(!meetsNew(board, chosen, where));
      const next = carry(board, chosen, where, ids());
      expect(next && partition(next)).toEqual(partition(board));
      // What the page shows while it drags is what the command leaves in the document.
      if (next) applyCommand(doc, rearranging(board, next), LOCAL);
      const places = (each: Board) => [
        each.parts.flatMap(terminalPoints),
        each.wires.map(({ id: key, points }) => [key, points]).sort(),
      ];
      expect(places(readBoard(doc))).toEqual(next && places(next));
    }),
    { numRuns: 300 },
  );
});
