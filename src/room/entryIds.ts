import { type EntryId, entryId } from "../../shared/board";

/**
 * A maker of entry ids that nobody else makes: the time, so that entries are ordered as they were placed, then a count
 * for those of one moment, then chance. `now` gives milliseconds, `random` numbers in [0, 1).
 */
export function entryIdMaker(now: () => number, random: () => number): () => EntryId {
  let count = 0;
  return () => {
    count += 1;
    const time = now().toString(36).padStart(9, "0");
    const order = count.toString(36).padStart(4, "0");
    const chance = Math.floor(random() * 36 ** 8)
      .toString(36)
      .padStart(8, "0");
    return entryId(`${time}-${order}-${chance}`);
  };
}
