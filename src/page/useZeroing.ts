"use client";

import { useMemo, useState } from "react";
import type { ZeroingDecision } from "../../shared/check/judgeZeroing";
import { isDependentSource, isIndependentSource, type PartId } from "../../shared/circuit";
import { type Decisions, type TryRefusal, tidyCard, type ZeroingTry } from "../../shared/messages";
import type { RoomConnection, RoomState } from "../room";
import { type SumCard, useRefusal } from "../sum";

/** What each source of a card's circuit becomes, by its name, in the circuit's order. */
export type Becomes = ReadonlyMap<string, ZeroingDecision>;

/** What somebody has decided on this page since the zeroing of that number was checked. */
type Own = { readonly after: number; readonly decisions: Decisions };

type Card = Pick<SumCard, "key" | "acting">;

/** The zeroing of the addends' circuits, where the room asks for it. */
export type Zeroing = {
  /** Whether the room asks for it. */
  readonly isAsked: boolean;
  /** What the sources become on the drawing of a card, while that is still to be decided; null where it is drawn. */
  readonly becomesOn: (card: Card) => Becomes | null;
  /** The newest that was checked for a card. */
  readonly lastOf: (card: Card) => ZeroingTry | null;
  /** Null for those who only look. */
  readonly acts: ZeroingActs | null;
  /** Why the last check was refused; null where it was not. */
  readonly refusal: TryRefusal | null;
};

export type ZeroingActs = {
  readonly decide: (card: Card, source: string, decision: ZeroingDecision) => void;
  readonly check: (card: Card) => void;
};

const NOTHING_OWN: ReadonlyMap<string, Own> = new Map();

/** What the sources of each card's circuit become while that is still to be decided, as it was checked last, or by `own`. */
export function useBecomes(
  { circuit }: RoomState["circuit"],
  zeroings: readonly ZeroingTry[],
  isAsked: boolean,
  own = NOTHING_OWN,
): Pick<Zeroing, "isAsked" | "becomesOn" | "lastOf"> {
  const lastOf = useMemo(
    () => (card: Card) => zeroings.find((each) => each.card === tidyCard(card.key)) ?? null,
    [zeroings],
  );
  const sources = useMemo(
    () => circuit.parts.filter((part) => isIndependentSource(part) || isDependentSource(part)).map(({ id }) => id),
    [circuit],
  );
  const becomesOn = useMemo(() => {
    const made = new Map<string, Becomes>();
    return (card: Card): Becomes | null => {
      const last = lastOf(card);
      if (!isAsked || card.acting === null || (last?.outcome === "right" && !last.isOutdated)) return null;
      const becomes = made.get(card.key) ?? becomesOf(sources, own.get(card.key), last);
      made.set(card.key, becomes);
      return becomes;
    };
  }, [isAsked, lastOf, sources, own]);
  return { isAsked, becomesOn, lastOf };
}

/** Decisions are this page's own until they are checked; the newest that was checked is what everybody goes on from. */
export function useZeroing(state: RoomState, connection: RoomConnection): Zeroing {
  const { circuit, steps, room, link } = state;
  const [own, setOwn] = useState(NOTHING_OWN);
  const [refusal, setRefusal] = useRefusal(link === "joined");
  const asked = useBecomes(circuit, steps.zeroings, room?.trying.zeroing === "asked", own);
  const { becomesOn, lastOf } = asked;
  const mayTry = room !== null && room.you.role !== "observer" && !room.isEnded;
  const acts: ZeroingActs = {
    decide: (card, source, decision) => {
      const now = Object.fromEntries(becomesOn(card) ?? []);
      const after = lastOf(card)?.count ?? 0;
      setRefusal(null);
      setOwn((before) => new Map(before).set(card.key, { after, decisions: { ...now, [source]: decision } }));
    },
    check: async (card) => {
      const decisions = Object.fromEntries(becomesOn(card) ?? []);
      const reply = await connection.askAboutTry({ do: "tryZeroing", card: card.key, decisions });
      setRefusal(reply.outcome === "refused" ? reply.why : null);
    },
  };
  return { ...asked, acts: mayTry ? acts : null, refusal };
}

function becomesOf(sources: readonly PartId[], own: Own | undefined, last: ZeroingTry | null): Becomes {
  const isOwnNewer = own !== undefined && own.after === (last?.count ?? 0);
  const decisions = isOwnNewer ? own.decisions : (last?.decisions ?? {});
  return new Map(sources.map((source) => [source, decisions[source] ?? "kept"]));
}
