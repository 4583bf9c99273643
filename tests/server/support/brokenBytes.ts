import fc from "fast-check";
import * as Y from "yjs";

/** An update with something of each kind that Yjs can hold: nested maps, arrays, text, deletions, plain values. */
export function richUpdate(): Uint8Array {
  const doc = new Y.Doc();
  doc.clientID = 1;
  const part = new Y.Map();
  doc.getMap("parts").set("R1", part);
  part.set("value", "3k");
  part.set("ends", new Y.Array());
  doc.getArray("ink").push([1, 2.5, "x", { colour: "red" }, null, true]);
  doc.getText("note").insert(0, "hello");
  doc.getText("note").delete(1, 2);
  const update = Y.encodeStateAsUpdate(doc);
  doc.destroy();
  return update;
}

/** The bytes with up to four of them changed, cut short at some place, or both. */
export function broken(bytes: Uint8Array): fc.Arbitrary<Uint8Array> {
  const changes = fc.array(fc.tuple(fc.nat(bytes.length - 1), fc.nat(255)), { minLength: 1, maxLength: 4 });
  const length = fc.oneof({ weight: 4, arbitrary: fc.constant(bytes.length) }, fc.nat(bytes.length));
  return fc.tuple(changes, length).map(([changed, end]) => {
    const copy = Uint8Array.from(bytes);
    for (const [at, value] of changed) copy[at] = value;
    return copy.slice(0, end);
  });
}
