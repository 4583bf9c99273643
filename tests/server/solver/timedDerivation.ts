import type { Derived } from "../../../server/solver/deriveJob";

const NOTHING: Derived = {
  workings: [],
  powerTable: null,
  cards: [],
  whole: "",
  failure: null,
  faults: [],
  digest: "",
};

/** A derivation whose board is text: how many milliseconds to take, `forever`, `throw`, or `fault`. Any other board is `forever`. */
export function deriveBoard(board: Uint8Array): Derived {
  const text = new TextDecoder().decode(board);
  if (text === "throw") throw new Error("this board breaks the derivation");
  if (text === "fault") return { ...NOTHING, faults: [fault("Iy′", "I(R3)"), fault("Iy″", "I(R4)")] };
  const end = /^\d+$/.test(text) ? performance.now() + Number(text) : Number.POSITIVE_INFINITY;
  while (performance.now() < end);
  return { ...NOTHING, digest: text };
}

function fault(where: string, line: string): Derived["faults"][number] {
  return { where, line, got: "2 mA", expected: "3 mA" };
}
