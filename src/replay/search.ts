import { type BoardEdit, EditReader } from "../../shared/board";
import { unreachable } from "../../shared/quantity";
import {
  type Chapter,
  chapterText,
  type Finding,
  isHelpTold,
  type ReplayEvent,
  SearchIndex,
} from "../../shared/replay";
import { cardText, mistakeText, saidText, stepText } from "./happening";
import type { ReplayPlayer } from "./player";
import { toldThen } from "./toldThen";

/** Entries that are read at once, between two of which the page may do something else. */
const AT_ONCE = 400;

export type Reading = {
  readonly index: SearchIndex;
  /** How much of the session has been read, from 0 to 1. */
  readonly share: number;
  /** Why it could not be read to its end; null where it could, so far. */
  readonly fault: string | null;
};

/** Reads a whole session to be searched, calling back with what there is now and then. Gives the way to stop it. */
export function readSession({ log, last }: ReplayPlayer, tell: (reading: Reading) => void): () => void {
  const index = new SearchIndex();
  const edits = new EditReader();
  const news = pageNews();
  let isStopped = false;
  const run = async () => {
    for (let from = 1; from <= last; from += AT_ONCE) {
      const to = Math.min(last, from + AT_ONCE - 1);
      const refusal = await log.loadEntries(from, to);
      if (isStopped) return;
      if (refusal) return tell({ index, share: from / last, fault: refusal.text });
      for (let sequence = from; sequence <= to; sequence++)
        takeEvent(index, (update) => edits.take(update).filter(news), log.event(sequence));
      tell({ index, share: to / last, fault: null });
      // A pause in which the page draws.
      await new Promise((resolve) => setTimeout(resolve, 0));
    }
  };
  void run().finally(() => edits.destroy());
  return () => {
    isStopped = true;
  };
}

/** Title and statement are written together, also where only one of them is another: tells which edits say something new. */
function pageNews(): (edit: BoardEdit) => boolean {
  const texts = new Map<string, string>();
  return ({ map, entry, text }) => {
    if (map !== "page") return true;
    const isNew = (texts.get(entry) ?? "") !== text;
    texts.set(entry, text);
    return isNew;
  };
}

type Read = (update: Uint8Array) => readonly BoardEdit[];

function takeEvent(index: SearchIndex, read: Read, event: ReplayEvent | null): void {
  if (event?.kind === "update") index.addEdits(event, read(event.update));
  const words = event && triedWords(event);
  if (words) index.add({ ...placeOf(event), about: "try", words });
}

function placeOf({ sequence, time, participant }: ReplayEvent) {
  return { sequence, time, participant };
}

/** What somebody tried, or was told about it, without who it was; null for an event of another kind. */
function triedWords(event: ReplayEvent): string | null {
  if (event.kind === "step") return stepText(event.made);
  if (event.kind !== "try") return isHelpTold(event) ? saidText(event) : null;
  const { text, wanted, card, judgement } = event.made;
  return `tries ${text} for ${wanted}, ${cardText(card)}${mistakeText(event.made)}. ${toldThen(judgement) ?? ""}`;
}

/** Chapters that have every one of some words in what they are called. */
export function findChapters(
  chapters: readonly Chapter[],
  words: string,
  nameOf: (participant: number) => string,
): readonly Chapter[] {
  const wanted = words
    .toLowerCase()
    .split(/\s+/u)
    .filter((word) => word !== "");
  if (wanted.length === 0) return [];
  return chapters.filter((chapter) => {
    const text = chapterText(chapter, nameOf).toLowerCase();
    return wanted.every((word) => text.includes(word));
  });
}

/** What was found, in words, without who did it. */
export function findingText({ edit, words }: Finding): string {
  return edit ? editText(edit) : words;
}

function editText({ did, map, entry, name, text }: BoardEdit): string {
  if (map === "page") return text === "" ? `takes the ${entry} away` : `writes the ${entry}: ${text}`;
  const what = name === "" ? NAMELESS[map] : name;
  const value = text === "" ? "" : `, ${text}`;
  switch (did) {
    case "placed":
      return `places ${what}${value}`;
    case "changed":
      return `changes ${what}${value}`;
    case "removed":
      return `takes ${what} away${value}`;
    default:
      return unreachable(did);
  }
}

const NAMELESS: Readonly<Record<Exclude<BoardEdit["map"], "page">, string>> = {
  part: "a part",
  wire: "a wire",
  reference: "the reference node",
  "node name": "the name of a node",
  "wanted quantity": "what is wanted",
  "group of sources": "a group of sources",
  mark: "ink",
};
