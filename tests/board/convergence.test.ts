import fc from "fast-check";
import { expect, it } from "vitest";
import * as Y from "yjs";
import { applyCommand, circuitOf, LOCAL, readBoard } from "../../shared/board";
import { command } from "./anyCommand";
import { exchange } from "./builders";

/** A client does a command, or some of the three meet while the others are cut off. */
const step = fc.oneof(
  { weight: 4, arbitrary: fc.record({ client: fc.integer({ min: 0, max: 2 }), command }) },
  { weight: 1, arbitrary: fc.record({ meet: fc.constantFrom([0, 1], [1, 2], [0, 2], [0, 1, 2]) }) },
);

it("three clients that edit at random, parted and joined at random, end with one board and one circuit", () => {
  fc.assert(
    fc.property(fc.array(step, { maxLength: 40 }), (steps) => {
      const docs = [1, 2, 3].map((clientID) => Object.assign(new Y.Doc(), { clientID }));
      for (const each of steps) {
        if ("meet" in each) exchange(...each.meet.map((i) => docs[i] as Y.Doc));
        else applyCommand(docs[each.client] as Y.Doc, each.command, LOCAL);
      }
      exchange(...docs);
      const [first, ...others] = docs.map((doc) => readBoard(doc));
      for (const board of others) {
        expect(board).toEqual(first);
        expect(circuitOf(board).circuit).toEqual(circuitOf(first as typeof board).circuit);
      }
      const names = [...(first?.parts ?? []), ...(first?.wires ?? [])].map((entry) => entry.name);
      expect(new Set(names).size).toBe(names.length);
    }),
    { numRuns: 200 },
  );
});
