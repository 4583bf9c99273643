"use client";

import { type ReactNode, useCallback, useEffect, useRef, useState } from "react";
import type { Derivation, Line } from "../../shared/derive";
import { moveAlong } from "../paper";
import { LineItem } from "./LineItem";
import type { LineTools } from "./lineTools";
import { useNewLine } from "./useNewLine";
import styles from "./working.module.css";

type Props = {
  readonly derivation: Derivation;
  /** Of the lines, those that the others have; the rest is a preview for this page alone. */
  readonly shown: number;
  readonly label: string;
  readonly tools: LineTools;
  /** For the instructor: shows all lines up to a number. */
  readonly showUpTo: ((lines: number) => void) | null;
  /** How many lines were shown when the card was opened; what comes after that is new. */
  readonly started: number;
};

/** Numbered lines, gone through with the arrow keys; the line under pointer or focus lights its parts on the drawing. */
export function LineList({ derivation, shown, label, tools, showUpTo, started }: Props) {
  const { lines, sketches } = derivation;
  const { active, reached, hover, focus } = useLight(lines, tools);
  const list = useRef<HTMLDivElement>(null);
  const { unseen, newFrom, goToUnseen } = useNewLine(list, shown, started);
  const item = (line: Line, i: number) => (
    <LineItem
      key={i}
      line={line}
      index={i}
      sketches={sketches}
      tools={tools}
      isReached={i === Math.min(reached, lines.length - 1)}
      isActive={i === active}
      isNew={newFrom !== null && i + 1 >= newFrom && i < shown}
      hover={hover}
      focus={focus}
      showUpTo={i >= shown ? showUpTo : null}
    />
  );
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: the lines in it take the keys
    <div ref={list} className={styles.list} onKeyDown={(event) => moveAlong(event, "[data-line]")}>
      {shown > 0 && (
        <ol className={styles.lines} aria-label={label}>
          {lines.slice(0, shown).map(item)}
        </ol>
      )}
      {unseen !== null && (
        <button type="button" className={styles.unseen} onClick={goToUnseen}>
          New: line {unseen}
        </button>
      )}
      {shown < lines.length && (
        <Preview label={label}>{lines.slice(shown).map((line, i) => item(line, shown + i))}</Preview>
      )}
    </div>
  );
}

function Preview({ label, children }: { readonly label: string; readonly children: ReactNode }) {
  return (
    <>
      <p className={styles.onlyYou}>
        <span>Not shown yet. Only you see this.</span>
      </p>
      <ol className={styles.preview} aria-label={`${label}, not shown yet: only you see these lines`}>
        {children}
      </ol>
    </>
  );
}

/**
 * Which line is active, with its light on the drawing: that under the pointer, else that in focus. The line that was in
 * focus last is the one that the Tab key comes back to.
 */
function useLight(lines: readonly Line[], { lit }: LineTools) {
  const [hovered, hover] = useState<number | null>(null);
  const [focused, setFocused] = useState<number | null>(null);
  const [reached, setReached] = useState(0);
  const focus = useCallback((index: number | null) => {
    setFocused(index);
    if (index !== null) setReached(index);
  }, []);
  const active = hovered ?? focused;
  const line = active === null ? undefined : lines[active];
  useEffect(() => {
    if (!line) return;
    // Another list may light its own line meanwhile.
    return lit.light({ parts: line.parts, nodes: line.nodes });
  }, [line, lit]);
  return { active, reached, hover, focus };
}
