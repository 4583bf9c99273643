"use client";

import { useCallback, useState } from "react";
import type { HelpAction, MeantTry } from "../../shared/messages";
import type { RoomConnection, RoomState } from "../room";
import { type CardTries, type Handing, type HelpActs, isToTry, lastTry, type SumCard, useRefusal } from "../sum";
import type { useRoomView } from "./useRoomView";

type View = Pick<ReturnType<typeof useRoomView>, "wanted" | "setCard">;

/** Of the help that this page asked for last: with which try, and whether it is to be brought there. */
type Asked = { readonly about: MeantTry | null; readonly isAwaited: boolean };

const NOTHING: Asked = { about: null, isAwaited: false };

/** What is tried in a room, and what this page's person may do about it. */
export type RoomTries = {
  /** Null for a card at which nothing is or can be tried. */
  readonly triesOf: (card: SumCard) => CardTries | null;
  readonly handing: Handing | null;
};

export function useTries(state: RoomState, connection: RoomConnection, view: View): RoomTries {
  const [asked, setAsked] = useState(NOTHING);
  const isReached = state.link === "joined";
  const [refusal, setRefusal] = useRefusal(isReached);
  const arrived = useCallback(() => setAsked((now) => ({ ...now, isAwaited: false })), []);
  const { room, tries } = state;
  const { wanted } = view;
  const request = async (about: MeantTry, action: HelpAction | null) => {
    const reply = action && (await connection.askAboutTry(action));
    const why = reply?.outcome === "refused" ? reply.why : null;
    setAsked({ about, isAwaited: why === null });
    setRefusal(why);
  };
  const helpActs = (card: SumCard, last: CardTries["last"]): HelpActs | null => {
    if (!wanted || !last?.help || !room || room.you.role === "observer" || room.isEnded) return null;
    const { rungs, hasMore } = last.help;
    const meant: MeantTry = { wanted: wanted.name, card: card.key, count: last.count };
    const next: HelpAction = { do: "askHelp", ...meant, given: rungs.length };
    const isFirst = hasMore && rungs.length === 0;
    const isOwn = asked.about !== null && isSame(asked.about, meant);
    return {
      open: () => {
        view.setCard(card.key);
        void request(meant, isFirst ? next : null);
      },
      ask: () => void request(meant, next),
      answer: (choice) => void request(meant, { do: "answerQuestion", ...meant, choice }),
      giveReason:
        room.you.role === "instructor" ? null : (text) => void request(meant, { do: "giveReason", ...meant, text }),
      refusal: isOwn ? refusal : null,
      isAwaited: isOwn && asked.isAwaited,
      arrived,
    };
  };
  const handing = useHanding(state, connection, wanted?.name ?? null);
  const triesOf = (card: SumCard): CardTries | null => {
    if (!wanted) return null;
    const people = { you: room?.you ?? null, participants: room?.participants ?? [] };
    const last = lastTry(tries, wanted.name, card, people);
    const mayTry = isToTry(wanted.kind, card, room?.you.role ?? null, room?.isEnded ?? false);
    const hand = mayTry ? (text: string) => connection.tryValue({ wanted: wanted.name, card: card.key, text }) : null;
    return last || hand ? { last, hand, isReached, help: helpActs(card, last) } : null;
  };
  return { triesOf, handing };
}

/** Where values are judged together, what waits for that. */
function useHanding(
  { room, tries, steps, link }: RoomState,
  connection: RoomConnection,
  wanted: string | null,
): Handing | null {
  const [refusal, setRefusal] = useRefusal(link === "joined");
  if (wanted === null || room?.trying.judging !== "whenHandedIn") return null;
  const entered = tries.filter((each) => each.wanted === wanted && each.judgement.outcome === "entered").length;
  const lines = steps.lines.filter(({ told }) => told.outcome === "entered").length;
  const mayHandIn = room.you.role !== "observer" && !room.isEnded;
  const handIn = async () => {
    const reply = await connection.askAboutTry({ do: "handIn", wanted });
    setRefusal(reply.outcome === "refused" ? reply.why : null);
  };
  return { entered, lines, handIn: mayHandIn ? () => void handIn() : null, refusal };
}

function isSame(a: MeantTry, b: MeantTry): boolean {
  return a.wanted === b.wanted && a.card === b.card && a.count === b.count;
}
