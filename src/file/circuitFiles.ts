import {
  type Board,
  boardFromFile,
  type Command,
  circuitOf,
  EMPTY_BOARD,
  type EntryId,
  fileFromBoard,
  type Point,
  pasting,
  terminalPoints,
} from "../../shared/board";

/** A board as the text of a circuit file, and the names of the parts that could not be written into it. */
export type WrittenCircuit = { readonly text: string; readonly leftOut: readonly string[] };

// The reader and writer of files are large and seldom wanted, so they come when they are.
const circuitModule = () => import("../../shared/circuit");

export async function writtenCircuit(board: Board): Promise<WrittenCircuit> {
  const { writeCircuitFile } = await circuitModule();
  const given = new Set<string>(circuitOf(board).circuit.parts.map((part) => part.id));
  return {
    text: `${JSON.stringify(writeCircuitFile(fileFromBoard(board)), null, 2)}\n`,
    leftOut: board.parts.filter((part) => !given.has(part.name)).map((part) => part.name),
  };
}

/** What a file holds: a board, laid out where the file does not say where its parts stand, or every fault of it as a sentence that begins with its place in the file. */
export type ReadCircuit =
  | { readonly ok: true; readonly board: Board }
  | { readonly ok: false; readonly faults: readonly string[] };

/** Longest file that is read, in characters: some hundred times the longest circuit that fits on a board. */
const TEXT_LIMIT = 2_000_000;

export async function readCircuit(text: string): Promise<ReadCircuit> {
  if (text.length > TEXT_LIMIT) return fault("The file has more than 2 MB, which is more than any circuit needs.");
  const { readCircuitText, fileProblemText } = await circuitModule();
  const reading = readCircuitText(text);
  if (!reading.ok) return { ok: false, faults: reading.problems.map(fileProblemText) };
  const { layOutFile } = await import("../../shared/layout");
  const board = boardFromFile(layOutFile(reading.value));
  if (!board) throw new Error("readCircuit: a file that was laid out cannot be drawn");
  return { ok: true, board };
}

function fault(sentence: string): ReadCircuit {
  return { ok: false, faults: [sentence] };
}

/** Takes everything off the board and puts the other board there, as one step of undo. */
export function replacing(board: Board, other: Board, newId: () => EntryId): Command | null {
  const all = [...board.parts, ...board.wires, ...board.references, ...board.nodeNames, ...board.wanted];
  // With ids of its own, so that nothing which people left about earlier entries comes to be about these.
  const copy = pasting(EMPTY_BOARD, other, { x: 0, y: 0 }, newId);
  if (!copy) return null;
  const commands: readonly Command[] = [
    { do: "delete", ids: [...all, ...board.groups].map((entry) => entry.id) },
    copy.command,
    { do: "setPage", title: other.title, statement: other.statement },
  ];
  return { do: "all", commands };
}

/** Puts the other board to the right of what is drawn, as one step of undo; null where that leaves the grid. */
export function addingBeside(board: Board, other: Board, newId: () => EntryId): Command | null {
  const [drawn, added] = [pointsOf(board), pointsOf(other)];
  const right = Math.max(...drawn.map((point) => point.x));
  const [left, top] = [Math.min(...added.map((point) => point.x)), Math.min(...added.map((point) => point.y))];
  const upper = Math.min(...drawn.map((point) => point.y));
  const by = drawn.length > 0 && added.length > 0 ? { x: right + GAP - left, y: upper - top } : { x: 0, y: 0 };
  return pasting(board, other, by, newId)?.command ?? null;
}

/** Room for labels between the two circuits, in grid units. */
const GAP = 6;

function pointsOf(board: Board): readonly Point[] {
  return [
    ...board.parts.flatMap(terminalPoints),
    ...board.wires.flatMap((wire) => wire.points),
    ...board.references.map((symbol) => symbol.at),
  ];
}
