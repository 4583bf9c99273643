"use client";

import { useCallback, useState } from "react";
import type { MeantStep, StepHelpAction, TryHelp, TryRefusal } from "../../shared/messages";
import type { RoomConnection, RoomState } from "../room";
import type { HelpActs } from "../sum";

/** Of the help with a step that this page asked for last: with which, whether it is to be brought there, why it got none. */
type Asked = { readonly step: string; readonly isAwaited: boolean; readonly refusal: TryRefusal | null };

const NOTHING: Asked = { step: "", isAwaited: false, refusal: null };

export type StepHelp = (meant: MeantStep, help: TryHelp | null) => HelpActs | null;

/** What this page's person may do about the help with a step; null for those who only look. */
export function useStepHelp(
  { room }: Pick<RoomState, "room">,
  connection: Pick<RoomConnection, "askAboutTry">,
): StepHelp {
  const [asked, setAsked] = useState(NOTHING);
  const arrived = useCallback(() => setAsked((now) => ({ ...now, isAwaited: false })), []);
  return (meant, help) => {
    if (!help || !room || room.you.role === "observer" || room.isEnded) return null;
    const step = JSON.stringify([meant.step, meant.card, meant.count]);
    const request = async (action: StepHelpAction | null) => {
      const reply = action && (await connection.askAboutTry(action));
      const refusal = reply?.outcome === "refused" ? reply.why : null;
      setAsked({ step, isAwaited: refusal === null, refusal });
    };
    const next: StepHelpAction = { do: "askStepHelp", ...meant, given: help.rungs.length };
    const own = asked.step === step ? asked : NOTHING;
    return {
      open: () => void request(help.hasMore && help.rungs.length === 0 ? next : null),
      ask: () => void request(next),
      // Steps have no question: one cause explains each.
      answer: () => {},
      giveReason: (text) => void request({ do: "giveStepReason", ...meant, text }),
      refusal: own.refusal,
      isAwaited: own.isAwaited,
      arrived,
    };
  };
}
