import type { BoardEdit } from "../board";

/** Something that was done, as it can be found again. */
export type Finding = {
  readonly sequence: number;
  readonly time: number;
  readonly participant: number;
  readonly about: "edit" | "try" | "chapter";
  /** What an edit did; null for a try or a chapter. */
  readonly edit: BoardEdit | null;
  /** The words in which it is found: names, values, texts. */
  readonly words: string;
};

/** What is looked for. Every word of `words` has to be in a finding, wherever and in whatever case. */
export type Query = {
  readonly words: string;
  /** Who did it; null for anybody. */
  readonly participant: number | null;
  readonly about: Finding["about"] | null;
};

/** Edits of one entry by the same person within this time, in ms, are one finding: a part that is dragged is moved once. */
const TOGETHER = 2000;

/** All that was done in a room, to be searched. Findings are added in the order of their sequences. */
export class SearchIndex {
  readonly #findings: Finding[] = [];
  /** Place of the newest finding of each entry of the board. */
  readonly #newest = new Map<string, number>();

  /** Adds what one change of the board did. */
  addEdits(at: Pick<Finding, "sequence" | "time" | "participant">, edits: readonly BoardEdit[]): void {
    const { sequence, time, participant } = at;
    for (const edit of edits) {
      const key = `${edit.map} ${edit.entry}`;
      const place = this.#newest.get(key);
      const last = place === undefined ? undefined : this.#findings[place];
      const isSame =
        last?.participant === participant &&
        time - last.time <= TOGETHER &&
        edit.did === "changed" &&
        last.edit?.did !== "removed";
      const words = `${edit.map} ${edit.name} ${edit.text}`;
      if (isSame && place !== undefined && last?.edit) {
        // A part that was placed and then given its value was placed with it.
        this.#findings[place] = { ...last, words, edit: { ...edit, did: last.edit.did } };
      } else {
        this.#newest.set(key, this.#findings.length);
        this.#findings.push({ sequence, time, participant, about: "edit", edit, words });
      }
    }
  }

  /** Adds a try or a chapter, with the words in which it is to be found. */
  add(finding: Omit<Finding, "edit">): void {
    this.#findings.push({ ...finding, edit: null });
  }

  /** The first `limit` findings that fit, by sequence. None for a query without words, person or kind. */
  find({ words, participant, about }: Query, limit: number): readonly Finding[] {
    const wanted = folded(words)
      .split(/\s+/u)
      .filter((word) => word !== "");
    if (wanted.length === 0 && participant === null && about === null) return [];
    const found: Finding[] = [];
    for (const finding of this.#findings) {
      if (participant !== null && finding.participant !== participant) continue;
      if (about !== null && finding.about !== about) continue;
      const text = folded(finding.words);
      if (!wanted.every((word) => text.includes(word))) continue;
      found.push(finding);
      if (found.length === limit) break;
    }
    return found.sort((a, b) => a.sequence - b.sequence);
  }
}

function folded(text: string): string {
  return text.normalize("NFKC").toLowerCase();
}
