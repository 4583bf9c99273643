"use client";

import { useRef } from "react";
import { type InkTool, isLineTool, leavesInk } from "./inkTool";

type Props = {
  readonly tool: InkTool | null;
  readonly setTool: (tool: InkTool | null) => void;
  /** Who may not draw may still point. */
  readonly mayDraw: boolean;
};

/** The words for ink in the margin. "Ink" takes up again what it was last used for; the line above the board has its kinds. */
export function InkTools({ tool, setTool, mayDraw }: Props) {
  const lastLine = useRef<InkTool>("pen");
  if (tool && isLineTool(tool)) lastLine.current = tool;
  const words = [
    { word: "Ink", isPressed: tool !== null && isLineTool(tool), to: lastLine.current },
    { word: "Words", isPressed: tool === "words", to: "words" },
    { word: "Point", isPressed: tool === "point", to: "point" },
  ] as const;
  return (
    <ul>
      {words.map(({ word, isPressed, to }) => (
        <li key={word}>
          <button
            type="button"
            aria-pressed={isPressed}
            disabled={!mayDraw && leavesInk(to)}
            onClick={() => setTool(to)}
          >
            {word}
          </button>
        </li>
      ))}
    </ul>
  );
}
