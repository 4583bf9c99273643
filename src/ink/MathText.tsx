"use client";

import { useMemo } from "react";
import { useMathSetter } from "../math";
import { type MathRun, mathRuns } from "./mathRuns";

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

/** Until the setter has come, the source stands in the formula's place. */
function Formula({ source }: { readonly source: MathRun["text"] }) {
  const set = useMathSetter();
  const markup = useMemo(() => set?.(source, "htmlAndMathml"), [set, source]);
  if (markup === undefined) return <span>{source}</span>;
  // biome-ignore lint/security/noDangerouslySetInnerHtml: KaTeX escapes what it is given, and is told to trust nothing
  return <span dangerouslySetInnerHTML={{ __html: markup }} />;
}
