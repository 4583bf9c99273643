"use client";

import { useMemo } from "react";
import { isSeenOn } from "../../shared/board";
import type { Answers } from "../../shared/messages";
import type { Outdated } from "../../shared/replay";
import { type Shows, useRoomView } from "../page/useRoomView";
import { useSteps } from "../page/useSteps";
import { useBecomes } from "../page/useZeroing";
import type { PaperSettings } from "../settings";
import type { ShownRoom } from "./sessionLog";
import { type Names, stepsThen } from "./triedThen";

const PLAIN: Shows = { voltages: false, currents: false, redrawn: false };

const NO_CONNECTION = { askAboutTry: async () => ({ outcome: "done" }) as const };

/** What was computed for a moment. */
type Computed = { readonly answers: Answers | null; readonly outdated: Outdated | null };

/** A moment of a room as somebody looks at it: the open card, its figure, what was checked of it, and the ink that is seen on it. */
export function useScene(
  { board, circuit, ink, moment }: ShownRoom,
  { answers, outdated }: Computed,
  settings: PaperSettings,
  names: Names,
) {
  const then = useMemo(() => stepsThen(moment.steps, names, outdated), [moment.steps, names, outdated]);
  const becomes = useBecomes(circuit, then.zeroings, moment.settings.trying.zeroing === "asked");
  const view = useRoomView(board, circuit, answers, PLAIN, settings.symbols, becomes.becomesOn);
  const acting = view.card?.acting ?? null;
  const openSources = useMemo(
    () => (acting ? [...acting].flatMap((name) => circuit.entryOf.get(name) ?? []) : null),
    [acting, circuit],
  );
  const marks = useMemo(() => ink.marks.filter((mark) => isSeenOn(mark, openSources)), [ink, openSources]);
  const zeroing = { ...becomes, acts: null, refusal: null };
  const you = names.you === null ? null : String(names.you);
  const steps = useSteps({ circuit, room: null, link: "joined", steps: then }, NO_CONNECTION, view, zeroing, you);
  return { view, openSources, marks, outdated, steps };
}

export type Scene = ReturnType<typeof useScene>;
