import { expect, it } from "vitest";
import * as Y from "yjs";
import { readStart, type StartReading, StartThread } from "../../../server/roomStart";
import { type Board, readBoard } from "../../../shared/board";
import { EXAMPLES } from "../../../shared/examples";

function boardOf(reading: StartReading): Board {
  if (!reading.ok || !reading.update) throw new Error("expected a board");
  const doc = new Y.Doc();
  Y.applyUpdate(doc, reading.update);
  return readBoard(doc);
}

const FILE = { kind: "file", file: EXAMPLES[1]?.json } as const;

it("reads a file aside as it is read here", async () => {
  const aside = boardOf(await new StartThread(60_000).read(FILE));
  expect(aside.parts.length).toBeGreaterThan(0);
  expect(aside).toEqual(boardOf(readStart(FILE)));
  const broken = { kind: "file", file: { elements: [{ id: "R1" }] } } as const;
  expect(await new StartThread(60_000).read(broken)).toEqual(readStart(broken));
});

it("ends what takes too long, refuses more than ten that wait, and reads on afterwards", async () => {
  const thread = new StartThread(1);
  const readings = await Promise.all(Array.from({ length: 11 }, () => thread.read(FILE)));
  const slow = "Opening this file took more than 0.001 s and was ended. A smaller circuit can be opened.";
  expect(readings.slice(0, 10)).toEqual(Array.from({ length: 10 }, () => ({ ok: false, code: "badFile", text: slow })));
  expect(readings[10]).toEqual({
    ok: false,
    code: "unavailable",
    text: "Many files are being opened at the moment. Try again in a while.",
  });
  expect(await thread.read({ kind: "blank" })).toEqual({ ok: true, update: null });
  expect(await thread.read(FILE)).toMatchObject({ code: "badFile", text: slow });
});
