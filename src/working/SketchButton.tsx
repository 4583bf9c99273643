"use client";

import { useMemo } from "react";
import type { Sketch } from "../../shared/derive";
import { FigureSvg } from "../figure";
import { Sheet } from "../paper";
import { type SketchView, sketchFigure } from "./sketchFigure";
import styles from "./working.module.css";

type Props = {
  readonly sketch: Sketch;
  readonly view: SketchView;
  /** `after line 3` */
  readonly when: string;
  readonly sentence: string;
  readonly isOpen: boolean;
  readonly setOpen: (isOpen: boolean) => void;
  readonly isReached: boolean;
};

/** The size at which a small figure is drawn, where the line is wide enough: that of the text beside it. */
const SCALE = 0.78;

/** The circuit as it stands after a line, small; larger on a sheet when pressed. */
export function SketchButton({ sketch, view, when, sentence, isOpen, setOpen, isReached }: Props) {
  const figure = useMemo(() => sketchFigure(sketch, view), [sketch, view]);
  if (figure === null) return null;
  return (
    <>
      <div className={styles.sketch}>
        {/* Over the picture and not around it: the picture's labels are not words of the button. */}
        <button
          type="button"
          tabIndex={isReached ? 0 : -1}
          aria-haspopup="dialog"
          aria-label={`The circuit ${when}, larger`}
          onClick={() => setOpen(true)}
        />
        <div style={{ maxWidth: figure.extent.width * SCALE }}>
          <FigureSvg figure={figure} weight={1.3} className={styles.sketchFigure ?? ""} />
        </div>
      </div>
      {isOpen && (
        <Sheet title={`The circuit ${when}`} isWide close={() => setOpen(false)}>
          <p>{sentence}</p>
          <FigureSvg figure={figure} className={styles.largeFigure ?? ""} />
          <ElementList sketch={sketch} />
        </Sheet>
      )}
    </>
  );
}

/** The same in words: what stands between which nodes. */
function ElementList({ sketch }: { readonly sketch: Sketch }) {
  return (
    <ul className={styles.elements}>
      {sketch.elements.map(({ id, value, nodes, of }, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a transformer is two elements of one name
        <li key={i}>
          <b>{id}</b>
          {value !== null && ` ${value}`}, from {nodes[0]} to {nodes[1]}
          {of.length > 1 && ` (${of.join(", ")} together)`}
        </li>
      ))}
    </ul>
  );
}
