import { describe, expect, it } from "vitest";
import * as Y from "yjs";
import { boardUpdate } from "../../../server/roomStart";
import { boardReading } from "../../../server/solver/boardReading";
import { type Derived, deriveBoard, deriveReading } from "../../../server/solver/deriveJob";
import { applyCommand, boardFromFile, type EntryId, readBoard } from "../../../shared/board";
import { readCircuitFile } from "../../../shared/circuit";
import { workingsOf } from "../../../shared/derive";
import { EXAMPLES } from "../../../shared/examples";
import { cardOf, TOTAL_CARD } from "../../../shared/messages";
import { solveReport } from "../../../shared/solve";

function boardOf(id: string): Y.Doc {
  const file = readCircuitFile(EXAMPLES.find((example) => example.id === id)?.json);
  const board = file.ok ? boardFromFile(file.value) : null;
  if (!board) throw new Error(`${id} can't be drawn`);
  const doc = new Y.Doc();
  Y.applyUpdate(doc, boardUpdate(board));
  return doc;
}

const derived = (doc: Y.Doc): Derived => deriveBoard(Y.encodeStateAsUpdate(doc));

describe("the workings of a board", () => {
  it.each(EXAMPLES.map(({ id }) => id))("of %s are whole, without a fault, and a card an addend", (id) => {
    const doc = boardOf(id);
    const { circuit } = boardReading(Y.encodeStateAsUpdate(doc));
    const report = solveReport(circuit);
    const { workings, faults, failure, cards, powerTable } = derived(doc);
    expect([faults, failure]).toEqual([[], null]);
    expect(workings.map(({ wanted }) => wanted)).toEqual(report.wanted.map(({ name }) => name));
    expect(cards).toEqual(report.partials.map(({ sources }) => cardOf(sources)));
    expect(powerTable).not.toBeNull();
    for (const [index, { cards: own, secondMethods }] of workings.entries()) {
      const total = own.at(-1);
      expect(total?.card).toBe(TOTAL_CARD);
      expect(total?.derivation.lines.at(-1)?.equations.at(-1)?.result?.text).toBe(report.wanted[index]?.total?.text);
      expect(secondMethods.length % 3).toBe(0);
      for (const { card, derivation, tells } of own.slice(0, -1)) {
        expect(cards).toContain(card);
        expect(tells[0]?.card).toBe(card);
        expect(tells[0]?.from).toBeLessThan(derivation.lines.length);
      }
    }
  });

  it("have a card for each group behind the sources alone, and the same total as without", () => {
    const doc = boardOf("three-sources");
    const plain = derived(doc);
    const ids = plain.cards.slice(0, 2);
    const entries = readBoard(doc).parts.filter(({ name }) => ids.includes(name));
    const sources = entries.map(({ id }) => id);
    applyCommand(doc, { do: "addGroup", id: "g1" as EntryId, sources }, { source: "local" });
    const grouped = derived(doc);
    expect(grouped.cards).toEqual([...plain.cards, cardOf(ids)]);
    const [before, after] = [plain.workings[0], grouped.workings[0]];
    expect(after?.cards.map(({ card }) => card)).toEqual([...plain.cards, cardOf(ids), TOTAL_CARD]);
    expect(after?.cards.at(-1)?.derivation).toEqual(before?.cards.at(-1)?.derivation);
    expect(after?.secondMethods).toEqual(before?.secondMethods);
    const together = after?.cards.find(({ card }) => card === cardOf(ids));
    const report = solveReport(boardReading(Y.encodeStateAsUpdate(doc)).circuit, { groups: [ids] as never });
    expect(together?.derivation.result?.exact).toBe(report.wanted[0]?.addends[0]?.value.exact);
  });

  it("are the same by their digest after a change beside the circuit, and not after one of a value", () => {
    const doc = boardOf("three-sources");
    const { digest } = derived(doc);
    const source = readBoard(doc).parts.find(({ kind }) => kind === "voltage-source");
    if (!source) throw new Error("there is a voltage source");
    doc.getMap("anything").set("else", 1);
    expect(derived(doc).digest).toBe(digest);
    applyCommand(doc, { do: "setValue", id: source.id, value: "1 V" }, { source: "local" });
    expect(derived(doc).digest).not.toBe(digest);
  });

  it("that would be too long to be sent are none, and say so", () => {
    const reading = boardReading(Y.encodeStateAsUpdate(boardOf("three-sources")));
    const bytes = Buffer.byteLength(JSON.stringify(workingsOf(reading.circuit)));
    expect(deriveReading(reading, bytes * 2).failure).toBeNull();
    const none = deriveReading(reading, 1000);
    expect(none).toMatchObject({ workings: [], powerTable: null, failure: { code: "tooLarge", bytes: 1000 } });
  });
});
