import { type Role, type Try, type TryReply, tidyCard } from "../../shared/messages";
import type { SumCard } from "./cards";

/** What is tried at one card. */
export type CardTries = {
  /** The room's newest try at it. */
  readonly last: LastTry | null;
  /** Hands a value in; null where nothing is to be tried. */
  readonly hand: ((text: string) => Promise<TryReply>) | null;
};

export type LastTry = Pick<Try, "text" | "judgement" | "count" | "isOutdated"> & {
  /** Who made it, by the name that they have now; "You" for this page's person. */
  readonly who: string;
  readonly isOwn: boolean;
};

type Person = { readonly id: string; readonly name: string };

/** The newest try at a card of a wanted quantity. */
export function lastTry(
  tries: readonly Try[],
  wanted: string,
  card: SumCard,
  people: { readonly you: Person | null; readonly participants: readonly Person[] },
): LastTry | null {
  const made = tries.find((each) => each.wanted === wanted && tidyCard(each.card) === tidyCard(card.key));
  if (!made) return null;
  const { text, judgement, count, isOutdated, participant, name } = made;
  const isOwn = participant === people.you?.id;
  const now = people.participants.find(({ id }) => id === participant)?.name ?? name;
  return { text, judgement, count, isOutdated, who: isOwn ? "You" : now, isOwn };
}

/** Quantities whose answer is more than one value: no card has one to try. */
const COMPOUND = ["thevenin", "norton", "maximum-power-load"];

/**
 * Whether a value can be tried at a card: while its answer is hidden, since there is nothing to try where it stands on the
 * page, and by anybody but an observer.
 */
export function isToTry(kind: string, { isHidden }: SumCard, role: Role | null, isEnded: boolean): boolean {
  return isHidden && role !== null && role !== "observer" && !isEnded && !COMPOUND.includes(kind);
}
