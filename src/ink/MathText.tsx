"use client";

import { useEffect, useRef, useState } from "react";
import { type MathRun, mathRuns } from "./mathRuns";

/** Words with mathematics, set by KaTeX, which also writes MathML for screen readers. */
export function MathText({ text }: { readonly text: string }) {
  return mathRuns(text).map((run, i) =>
    run.kind === "words" ? (
      // biome-ignore lint/suspicious/noArrayIndexKey: the pieces of one text have no identity but their place
      <span key={i}>{run.text}</span>
    ) : (
      // biome-ignore lint/suspicious/noArrayIndexKey: as above
      <Formula key={i} source={run.text} />
    ),
  );
}

type Render = (source: string, element: HTMLElement) => void;

/** Until KaTeX has come, which the first formula of a page asks for, the source stands in its place. */
function Formula({ source }: { readonly source: MathRun["text"] }) {
  const element = useRef<HTMLSpanElement>(null);
  const render = useFormulaRender();
  useEffect(() => {
    if (element.current && render) render(source, element.current);
  }, [source, render]);
  return <span ref={element}>{render ? null : source}</span>;
}

function useFormulaRender(): Render | null {
  const [render, setRender] = useState<Render | null>(null);
  useEffect(() => {
    let isGone = false;
    import("katex").then(
      ({ default: katex }) => {
        const settings = { output: "htmlAndMathml", throwOnError: false, strict: "ignore", ...BOUNDS } as const;
        if (!isGone) setRender((): Render => (source, at) => katex.render(source, at, settings));
      },
      // Off line the library may not come; the source says the same.
      () => {},
    );
    return () => {
      isGone = true;
    };
  }, []);
  return render;
}

// A note comes from anybody: no links or images, no endless macros, nothing larger than a note.
const BOUNDS = { trust: false, maxExpand: 100, maxSize: 8 };
