"use client";

import { INK_COLOURS, type InkColour } from "../../shared/board";
import styles from "./ink.module.css";
import { HIGHLIGHTER_OPACITY, inkShade, type Paper } from "./inkColours";
import { hasColour, type InkTool, isLineTool, LINE_TOOLS, leavesInk } from "./inkTool";

type Props = {
  readonly tool: InkTool;
  readonly setTool: (tool: InkTool) => void;
  readonly colour: InkColour;
  readonly setColour: (colour: InkColour) => void;
  readonly paper: Paper;
  /** Title of the addend that new marks belong to, null where they are seen on every card. */
  readonly addend: string | null;
};

/** Lines above the drawing while an ink tool is in hand: its kinds, its colours, and on which cards its marks are seen. */
export function InkLine({ tool, setTool, colour, setColour, paper, addend }: Props) {
  return (
    <div className={styles.line}>
      {isLineTool(tool) && (
        <fieldset className={styles.kinds}>
          <legend className={styles.spoken}>Kind of ink</legend>
          {LINE_TOOLS.map(({ tool: each, word }) => (
            <button key={each} type="button" aria-pressed={each === tool} onClick={() => setTool(each)}>
              {word}
            </button>
          ))}
        </fieldset>
      )}
      {hasColour(tool) && (
        <fieldset className={styles.colours}>
          <legend className={styles.spoken}>Colour of the ink</legend>
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
