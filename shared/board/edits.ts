import * as Y from "yjs";
import { applyQuietly } from "./applyQuietly";
import { ENTRY_MAPS, entriesOf, inkOf, MAP_NAMES, pageOf } from "./document";
import type { EntryMap } from "./problem";

/** What one change did to an entry of the board, or to its title and statement. */
export type BoardEdit = {
  readonly did: "placed" | "changed" | "removed";
  readonly map: EntryMap | "page";
  /** Key of the entry; "title" or "statement" of the page. */
  readonly entry: string;
  /** The entry's name, "" where it has none; of a removed one the name that it had. */
  readonly name: string;
  /** What somebody typed for it: a value, a note's text, the title; "" where there is nothing of the kind. */
  readonly text: string;
};

type Told = Pick<BoardEdit, "name" | "text">;
type DeepEvent = Y.YEvent<Y.AbstractType<unknown>>;

/** Reads what each change of a board did, one after another from the board's beginning. */
export class EditReader {
  readonly #doc = new Y.Doc();
  /** Names and texts of the entries there are, since those of one that is taken away can't be read any more. */
  readonly #told = new Map<string, Told>();
  #edits: BoardEdit[] = [];

  constructor() {
    for (const key of ENTRY_MAPS) this.#watch(MAP_NAMES[key], entriesOf(this.#doc, key));
    this.#watch("mark", inkOf(this.#doc));
    pageOf(this.#doc).observe(({ keysChanged }) => {
      for (const field of keysChanged) {
        const text = textOf(pageOf(this.#doc).get(String(field)));
        this.#edits.push({ did: "changed", map: "page", entry: String(field), name: "", text });
      }
    });
  }

  /** Takes the next change in, and says what it did. One that Yjs can't read does nothing. */
  take(update: Uint8Array): readonly BoardEdit[] {
    this.#edits = [];
    applyQuietly(this.#doc, update);
    return this.#edits;
  }

  destroy(): void {
    this.#doc.destroy();
  }

  #watch(map: EntryMap, entries: Y.Map<unknown>): void {
    entries.observeDeep((events) => {
      const keys = new Set((events as readonly DeepEvent[]).flatMap((event) => keysOf(event, entries)));
      for (const key of keys) this.#note(map, entries, key);
    });
  }

  #note(map: EntryMap, entries: Y.Map<unknown>, entry: string): void {
    const place = `${map} ${entry}`;
    const before = this.#told.get(place);
    if (entries.has(entry)) {
      const told = read(entries.get(entry));
      this.#told.set(place, told);
      this.#edits.push({ did: before ? "changed" : "placed", map, entry, ...told });
    } else if (before) {
      this.#told.delete(place);
      this.#edits.push({ did: "removed", map, entry, ...before });
    }
  }
}

function keysOf(event: DeepEvent, entries: Y.Map<unknown>): readonly string[] {
  return event.target === (entries as unknown) ? [...event.changes.keys.keys()] : [String(event.path[0])];
}

function read(entry: unknown): Told {
  if (!(entry instanceof Y.Map)) return { name: "", text: "" };
  return { name: textOf(entry.get("name")), text: textOf(entry.get("value")) || textOf(entry.get("text")) };
}

/** Longest text that is told. */
const TEXT_LENGTH = 2000;

function textOf(value: unknown): string {
  return typeof value === "string" ? value.slice(0, TEXT_LENGTH) : "";
}
