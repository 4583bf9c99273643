"use client";

import { useEffect, useRef, useState } from "react";
import { type MathRun, mathRuns } from "./mathRuns";
import { loadMathSetter, type MathSetter } from "./mathSetter";

/** Words with mathematics, set by KaTeX. */
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

/** Until KaTeX has come the source stands in the formula's place; it says the same. */
function Formula({ source }: { readonly source: MathRun["text"] }) {
  const element = useRef<HTMLSpanElement>(null);
  const set = useMathSetter();
  useEffect(() => {
    if (element.current && set) set(source, element.current);
  }, [source, set]);
  return <span ref={element}>{set ? null : source}</span>;
}

function useMathSetter(): MathSetter | null {
  const [set, setSet] = useState<MathSetter | null>(null);
  useEffect(() => {
    let isGone = false;
    void loadMathSetter().then((loaded) => {
      if (!isGone) setSet(() => loaded);
    });
    return () => {
      isGone = true;
    };
  }, []);
  return set;
}
