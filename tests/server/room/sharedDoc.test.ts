import fc from "fast-check";
import { describe, expect, it } from "vitest";
import * as Y from "yjs";
import { SharedDoc } from "../../../server/room/sharedDoc";
import { broken, richUpdate } from "../support/brokenBytes";

const LIMIT = 50_000;

function docOf(...updates: readonly Uint8Array[]): Y.Doc {
  const doc = new Y.Doc();
  for (const update of updates) Y.applyUpdate(doc, update);
  return doc;
}

const contents = (...updates: readonly Uint8Array[]) => {
  const doc = docOf(...updates);
  return { parts: doc.getMap("parts").toJSON(), ink: doc.getArray("ink").toJSON(), note: doc.getText("note").toJSON() };
};

/** What a client that is in step sends when it sets one value. */
function edit(shared: SharedDoc, key: string, value: string): Uint8Array {
  const doc = docOf(shared.encode());
  let update = new Uint8Array();
  doc.on("update", (bytes: Uint8Array) => {
    update = new Uint8Array(bytes);
  });
  doc.getMap("parts").set(key, value);
  return update;
}

describe("an update", () => {
  it("is applied once: sent again, it holds nothing new", () => {
    const shared = new SharedDoc([], LIMIT);
    const update = richUpdate();
    expect(shared.apply(update).outcome).toBe("applied");
    expect(shared.apply(update)).toEqual({ outcome: "applied", update: null });
  });

  it("gives only what is new in it", () => {
    const shared = new SharedDoc([richUpdate()], LIMIT);
    const more = docOf(shared.encode());
    more.getMap("parts").set("R2", "1k");
    const applied = shared.apply(Y.encodeStateAsUpdate(more));
    if (applied.outcome !== "applied" || !applied.update) throw new Error("expected something new");
    expect(contents(richUpdate(), applied.update).parts).toEqual({ R1: { value: "3k", ends: [] }, R2: "1k" });
    expect(applied.update.length).toBeLessThan(richUpdate().length);
  });

  it("that builds on what is not here is not taken in, and can come again with it", () => {
    const author = new Y.Doc();
    author.getArray("ink").push([1]);
    const first = Y.encodeStateAsUpdate(author);
    author.getArray("ink").push([2]);
    const second = Y.encodeStateAsUpdate(author, Y.encodeStateVectorFromUpdate(first));
    const shared = new SharedDoc([], LIMIT);
    expect(shared.apply(second)).toEqual({ outcome: "incomplete" });
    expect(contents(shared.encode()).ink).toEqual([]);
    expect(shared.apply(Y.encodeStateAsUpdate(author)).outcome).toBe("applied");
    expect(contents(shared.encode()).ink).toEqual([1, 2]);
  });

  it("that deletes what is not here is not taken in", () => {
    const author = docOf(richUpdate());
    author.getMap("parts").delete("R1");
    const deletion = Y.diffUpdate(Y.encodeStateAsUpdate(author), Y.encodeStateVectorFromUpdate(richUpdate()));
    expect(new SharedDoc([], LIMIT).apply(deletion)).toEqual({ outcome: "incomplete" });
  });

  it("of more items than allowed is refused with both numbers", () => {
    const author = new Y.Doc();
    for (let index = 0; index < 5; index++) author.getMap("parts").set(`R${index}`, index);
    const applied = new SharedDoc([], 4).apply(Y.encodeStateAsUpdate(author));
    expect(applied).toEqual({ outcome: "refused", reason: "an update may hold 4 items, this one has 5" });
  });
});

it("loses nothing and stays writable, whatever broken updates come between good ones", () => {
  const good = richUpdate();
  fc.assert(
    fc.property(fc.boolean(), fc.array(broken(good), { minLength: 1, maxLength: 8 }), (isFilled, updates) => {
      const shared = new SharedDoc([], LIMIT);
      const stored: Uint8Array[] = [];
      const take = (update: Uint8Array) => {
        const applied = shared.apply(update);
        if (applied.outcome === "applied" && applied.update) stored.push(applied.update);
        return applied.outcome;
      };
      if (isFilled) take(good);
      for (const update of updates) take(update);
      // What was accepted can be read back, one by one and as a whole, and says the same.
      expect(contents(...stored)).toEqual(contents(shared.encode()));
      expect(new SharedDoc(stored, LIMIT).encode()).toEqual(shared.encode());
      // And an honest change still goes in.
      expect(take(edit(shared, "R9", "9k"))).toBe("applied");
      expect(contents(...stored).parts).toHaveProperty("R9", "9k");
    }),
    { numRuns: 1500 },
  );
});

it("loads a history in which one entry is broken, without that entry", () => {
  const good = richUpdate();
  const bad = good.slice(0, good.length - 4);
  const later = edit(new SharedDoc([good], LIMIT), "R2", "2k");
  expect(contents(new SharedDoc([bad, good, bad, later], LIMIT).encode()).parts).toHaveProperty("R2", "2k");
});

it("compacts to one update of the same contents, and knows its size then", () => {
  const shared = new SharedDoc([richUpdate(), richUpdate()], LIMIT);
  const before = contents(shared.encode());
  const compacted = shared.compact();
  if (!compacted) throw new Error("expected an update");
  expect(contents(compacted)).toEqual(before);
  expect(shared.size).toBe(compacted.length);
  expect(contents(shared.encode())).toEqual(before);
});

it("gives null for a state vector that can't be read, and what is lacking for one that can", () => {
  const shared = new SharedDoc([richUpdate()], LIMIT);
  expect(shared.encodeSince(Uint8Array.of(255, 255))).toBeNull();
  expect(contents(shared.encodeSince(Uint8Array.of(0)) ?? new Uint8Array())).toEqual(contents(richUpdate()));
});
