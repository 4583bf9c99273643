"use client";

import { useEffect, useMemo, useRef, useState } from "react";
import { useMathSetter } from "../math";
import { type EquationRow, pieceLatex, rowMath } from "./equationRows";
import styles from "./working.module.css";

/**
 * One row of mathematics. A chain breaks before its signs, each continuation under the first sign; what is wider than
 * the page scrolls in its own row. Screen readers get the whole row as MathML.
 */
export function EquationView({ row }: { readonly row: EquationRow }) {
  const set = useMathSetter();
  const markup = useMemo(() => {
    if (!set) return null;
    const shown = (latex: string) => set(`\\displaystyle ${latex}`, "html");
    return {
      left: row.left && shown(row.left.latex),
      pieces: row.pieces.map((piece) => shown(pieceLatex(piece))),
      mathml: set(rowMath(row).latex, "mathml"),
    };
  }, [set, row]);
  const [scroller, scrolls] = useScrolls(markup);
  const { text } = rowMath(row);
  return (
    <div
      ref={scroller}
      className={row.role === "by" ? styles.byRow : styles.row}
      data-role={row.role}
      {...(scrolls
        ? { tabIndex: 0, role: "group", "aria-label": "Mathematics wider than the page; scrolls sideways" }
        : {})}
    >
      {row.role === "by" && <span className={styles.by}>by</span>}
      {markup ? (
        <>
          <Markup className={styles.spoken} of={markup.mathml} />
          {markup.left && <Markup className={styles.left} of={markup.left} isHidden />}
          <span className={styles.chain}>
            {markup.pieces.map((piece, i) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: pieces have no identity, and a row is replaced whole
              <Markup key={i} className={styles.piece} of={piece} isHidden />
            ))}
          </span>
        </>
      ) : (
        <span className={styles.piece}>{text}</span>
      )}
    </div>
  );
}

type MarkupProps = { readonly of: string; readonly className: string | undefined; readonly isHidden?: boolean };

function Markup({ of, className, isHidden = false }: MarkupProps) {
  return (
    <span
      className={className}
      aria-hidden={isHidden || undefined}
      // biome-ignore lint/security/noDangerouslySetInnerHtml: KaTeX escapes what it is given, and is told to trust nothing
      dangerouslySetInnerHTML={{ __html: of }}
    />
  );
}

/** Whether an element is wider inside than outside. */
function useScrolls(content: unknown) {
  const element = useRef<HTMLDivElement>(null);
  const [scrolls, setScrolls] = useState(false);
  // biome-ignore lint/correctness/useExhaustiveDependencies: other content has another width
  useEffect(() => {
    const at = element.current;
    if (!at) return;
    const measure = () => setScrolls(at.scrollWidth > at.clientWidth + 1);
    const observer = new ResizeObserver(measure);
    observer.observe(at);
    measure();
    return () => observer.disconnect();
  }, [content]);
  return [element, scrolls] as const;
}
