"use client";

import { type KeyboardEvent, memo, useEffect, useMemo, useState } from "react";
import type { Line, Sketch } from "../../shared/derive";
import { unbroken } from "../words/unbroken";
import { CopyChoice } from "./CopyChoice";
import { EquationView } from "./EquationView";
import type { LineTools } from "./lineTools";
import { copiedLine, rowsOf } from "./lineWriting";
import { SketchButton } from "./SketchButton";
import styles from "./working.module.css";

type Props = {
  readonly line: Line;
  readonly index: number;
  readonly sketches: readonly Sketch[];
  readonly tools: LineTools;
  /** Whether the Tab key comes to this line; the arrow keys go on from there. */
  readonly isReached: boolean;
  /** Whether pointer or focus is on it. */
  readonly isActive: boolean;
  /** Whether it came while this page was looking. */
  readonly isNew: boolean;
  /** Takes the index of the line that the pointer, or the focus, has come to; null where it has left it. */
  readonly hover: (index: number | null) => void;
  readonly focus: (index: number | null) => void;
  /** For the instructor, on a line that is not shown yet: shows so many lines. */
  readonly showUpTo: ((lines: number) => void) | null;
};

/** One line: its number, its sentence, its mathematics, and what can be done with it. */
export const LineItem = memo(function LineItem(props: Props) {
  const { line, index, sketches, tools, isReached, isActive, isNew, hover, focus, showUpTo } = props;
  const number = index + 1;
  const [isCopying, setCopying] = useState(false);
  const [isLarge, setLarge] = useState(false);
  const [said, say] = useState("");
  const { pin } = tools;
  const pinIt = pin && (() => say(pin(line) ? `Line ${number} is on the board` : "This line is too long for a note"));
  const rows = useMemo(() => rowsOf(line, tools.order), [line, tools.order]);
  const sketch = line.sketch === null ? undefined : sketches[line.sketch];
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.target !== event.currentTarget || event.ctrlKey || event.metaKey || event.altKey) return;
    const act = keyAct(event.key, {
      open: sketch ? () => setLarge(true) : null,
      pin: pinIt,
      copy: () => setCopying(!isCopying),
    });
    if (!act) return;
    event.preventDefault();
    act();
  };
  useEffect(() => {
    if (!isActive) say("");
  }, [isActive]);
  return (
    <li
      className={styles.line}
      data-line={number}
      data-active={isActive}
      data-new={isNew}
      tabIndex={isReached ? 0 : -1}
      onKeyDown={onKeyDown}
      onPointerEnter={(event) => event.pointerType !== "touch" && hover(index)}
      onPointerLeave={() => hover(null)}
      onFocus={() => focus(index)}
      onBlur={(event) => !event.currentTarget.contains(event.relatedTarget) && focus(null)}
    >
      <span className={styles.number}>{number}</span>
      <div className={styles.body}>
        <p className={styles.sentence}>{unbroken(line.sentence)}</p>
        {rows.map((row, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: rows have no identity, and a line is replaced whole
          <EquationView key={i} row={row} />
        ))}
        {sketch && (
          <SketchButton
            sketch={sketch}
            view={tools.sketchView}
            when={`after line ${number}`}
            sentence={line.sentence}
            isOpen={isLarge}
            setOpen={setLarge}
            isReached={isReached}
          />
        )}
        <div className={styles.acts}>
          <output className={styles.said}>{said}</output>
          {(isActive || isCopying) && (
            <>
              {showUpTo && (
                <button type="button" aria-label={`Show up to here: line ${number}`} onClick={() => showUpTo(number)}>
                  Show up to here
                </button>
              )}
              {pinIt && (
                <button type="button" aria-label={`Pin to board: line ${number}`} onClick={pinIt}>
                  Pin to board
                </button>
              )}
              <CopyChoice
                what={`line ${number}`}
                textOf={(format, set) => copiedLine(line, format, tools.order, set)}
                isOpen={isCopying}
                setOpen={setCopying}
              />
            </>
          )}
        </div>
      </div>
    </li>
  );
});

type Acts = { readonly open: (() => void) | null; readonly pin: (() => void) | null; readonly copy: () => void };

function keyAct(key: string, acts: Acts): (() => void) | null {
  if (key === "Enter") return acts.open;
  if (key === "p" || key === "P") return acts.pin;
  return key === "c" || key === "C" ? acts.copy : null;
}
