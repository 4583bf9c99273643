"use client";

import { useState } from "react";
import styles from "./ink.module.css";
import { INK_TOOLS, type InkTool, leavesInk } from "./inkTool";

type Props = {
  readonly tool: InkTool | null;
  readonly setTool: (tool: InkTool | null) => void;
  /** Who may not draw may still point. */
  readonly mayDraw: boolean;
};

/** The words for ink in the margin. On a phone they wait behind one word of their own. */
export function InkTools({ tool, setTool, mayDraw }: Props) {
  const [isOpen, setOpen] = useState(false);
  const shown = isOpen || tool !== null;
  return (
    <div className={styles.tools}>
      <button
        type="button"
        className={styles.opener}
        aria-expanded={shown}
        onClick={() => {
          setOpen(!shown);
          if (shown) setTool(null);
        }}
      >
        Ink
      </button>
      <ul data-shown={shown}>
        {INK_TOOLS.map(({ tool: each, word }) => (
          <li key={each}>
            <button
              type="button"
              aria-pressed={each === tool}
              disabled={!mayDraw && leavesInk(each)}
              onClick={() => setTool(each === tool ? null : each)}
            >
              {word}
            </button>
          </li>
        ))}
      </ul>
    </div>
  );
}
