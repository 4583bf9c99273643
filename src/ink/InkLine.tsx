"use client";

import { INK_COLOURS, type InkColour } from "../../shared/board";
import styles from "./ink.module.css";
import { HIGHLIGHTER_OPACITY, inkShade, type Paper } from "./inkColours";
import { hasColour, type InkTool, leavesInk } from "./inkTool";

type Props = {
  readonly tool: InkTool;
  readonly colour: InkColour;
  readonly setColour: (colour: InkColour) => void;
  readonly paper: Paper;
  /** Title of the addend that new marks belong to, null where they are seen on every card. */
  readonly addend: string | null;
};

/** A line above the drawing while an ink tool is in hand: its colours, and on which cards its marks are seen. */
export function InkLine({ tool, colour, setColour, paper, addend }: Props) {
  return (
    <div className={styles.line}>
      {hasColour(tool) && (
        <fieldset className={styles.colours}>
          <legend>Ink</legend>
          {INK_COLOURS.map((each) => (
            <button key={each} type="button" aria-pressed={each === colour} onClick={() => setColour(each)}>
              <Sample shade={inkShade(each, paper)} isBroad={tool === "highlighter"} />
              {each}
            </button>
          ))}
        </fieldset>
      )}
      {leavesInk(tool) && tool !== "eraser" && tool !== "shift" && (
        <p className={styles.whereto}>
          {addend ? `Marks made now belong to ${addend}.` : "Marks made now are seen on every card."}
        </p>
      )}
    </div>
  );
}

function Sample({ shade, isBroad }: { readonly shade: string; readonly isBroad: boolean }) {
  const look = isBroad ? { strokeWidth: 9, opacity: HIGHLIGHTER_OPACITY * 1.6 } : { strokeWidth: 3, opacity: 1 };
  return (
    <svg className={styles.sample} viewBox="0 0 20 12" aria-hidden="true" focusable="false">
      <path d="M2 8C6 1 9 2 10 6S14 11 18 4" fill="none" stroke={shade} strokeLinecap="round" {...look} />
    </svg>
  );
}
