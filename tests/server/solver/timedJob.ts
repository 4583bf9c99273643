import type { Solved } from "../../../server/solver/job";

/** A job whose board is text: how many milliseconds to take, `forever`, or `throw`. */
export function solveBoard(board: Uint8Array): Solved {
  const text = new TextDecoder().decode(board);
  if (text === "throw") throw new Error("this board breaks the solver");
  if (text === "exhaust") exhaustMemory();
  const end = text === "forever" ? Number.POSITIVE_INFINITY : performance.now() + Number(text);
  while (performance.now() < end);
  return { report: null, boardProblems: [] };
}

function exhaustMemory(): void {
  const hoard: number[][] = [];
  for (;;) hoard.push(Array.from({ length: 100_000 }, () => Math.random()));
}
