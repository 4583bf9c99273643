"use client";

import { useCallback, useMemo, useState } from "react";
import type { Board, EntryId } from "../../shared/board";
import { NO_SELECTION, type Selection, stillThere } from "./selection";
import { SELECT, STRETCH, type Tool, WIRE } from "./tool";

export type SheetName = "parts" | "ask" | "paper" | "keys";

/** What a person is about to do on the board, and what is selected: kept in the page, never shared. */
export type BoardTools = {
  readonly tool: Tool;
  readonly setTool: (tool: Tool) => void;
  /** Goes back to the tool that was in hand before one for a single use. */
  readonly putDown: () => void;
  readonly selection: Selection;
  readonly select: (selection: Selection) => void;
  readonly choose: (entry: EntryId | null) => void;
  readonly sheet: SheetName | null;
  readonly openSheet: (sheet: SheetName | null) => void;
};

export function useBoardTools(board: Board): BoardTools {
  const [tool, setAnyTool] = useState<Tool>(STRETCH);
  const [lasting, setLasting] = useState<Tool>(STRETCH);
  const [asked, select] = useState<Selection>(NO_SELECTION);
  const [sheet, openSheet] = useState<SheetName | null>(null);
  // Somebody else may have deleted what is selected here.
  const selection = useMemo(() => stillThere(asked, board), [asked, board]);
  const setTool = useCallback((next: Tool) => {
    setAnyTool(next);
    if (next.do === STRETCH.do || next.do === SELECT.do || next.do === WIRE.do) setLasting(next);
  }, []);
  const putDown = useCallback(() => setAnyTool(lasting), [lasting]);
  const choose = useCallback((entry: EntryId | null) => select(entry === null ? NO_SELECTION : new Set([entry])), []);
  return { tool, setTool, putDown, selection, select, choose, sheet, openSheet };
}
