"use client";

import { useCallback, useState } from "react";
import type { MeantStep, StepHelpAction, TryHelp } from "../../shared/messages";
import type { RoomConnection, RoomState } from "../room";
import { type HelpActs, useRefusal } from "../sum";

/** Of the help with a step that this page asked for last: with which, and whether it is to be brought there. */
type Asked = { readonly step: string; readonly isAwaited: boolean };

const NOTHING: Asked = { step: "", isAwaited: false };

export type StepHelp = (meant: MeantStep, help: TryHelp | null) => HelpActs | null;

/** What this page's person may do about the help with a step; null for those who only look. */
export function useStepHelp(
  { room, link }: Pick<RoomState, "room" | "link">,
  connection: Pick<RoomConnection, "askAboutTry">,
): StepHelp {
  const [asked, setAsked] = useState(NOTHING);
  const [refusal, setRefusal] = useRefusal(link === "joined");
  const arrived = useCallback(() => setAsked((now) => ({ ...now, isAwaited: false })), []);
  return (meant, help) => {
    if (!help || !room || room.you.role === "observer" || room.isEnded) return null;
    const step = JSON.stringify([meant.step, meant.card, meant.count]);
    const request = async (action: StepHelpAction | null) => {
      const reply = action && (await connection.askAboutTry(action));
      const why = reply?.outcome === "refused" ? reply.why : null;
      setAsked({ step, isAwaited: why === null });
      setRefusal(why);
    };
    const next: StepHelpAction = { do: "askStepHelp", ...meant, given: help.rungs.length };
    const isOwn = asked.step === step;
    return {
      open: () => void request(help.hasMore && help.rungs.length === 0 ? next : null),
      ask: () => void request(next),
      // Steps have no question: one cause explains each.
      answer: () => {},
      giveReason:
        room.you.role === "instructor" ? null : (text) => void request({ do: "giveStepReason", ...meant, text }),
      refusal: isOwn ? refusal : null,
      isAwaited: isOwn && asked.isAwaited,
      arrived,
    };
  };
}
