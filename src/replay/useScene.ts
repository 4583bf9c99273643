"use client";

import { useMemo } from "react";
import { isSeenOn } from "../../shared/board";
import type { Answers } from "../../shared/messages";
import { type Shows, useRoomView } from "../page/useRoomView";
import type { PaperSettings } from "../settings";
import type { ShownRoom } from "./sessionLog";

const PLAIN: Shows = { voltages: false, currents: false, redrawn: false };

/** A moment of a room as somebody looks at it: the open card, its figure, and the ink that is seen on it. */
export function useScene({ board, circuit, ink }: ShownRoom, answers: Answers | null, settings: PaperSettings) {
  const view = useRoomView(board, circuit, answers, PLAIN, settings.symbols);
  const acting = view.card?.acting ?? null;
  const openSources = useMemo(
    () => (acting ? [...acting].flatMap((name) => circuit.entryOf.get(name) ?? []) : null),
    [acting, circuit],
  );
  const marks = useMemo(() => ink.marks.filter((mark) => isSeenOn(mark, openSources)), [ink, openSources]);
  return { view, openSources, marks };
}

export type Scene = ReturnType<typeof useScene>;
