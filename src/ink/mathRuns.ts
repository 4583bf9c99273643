/** A piece of a note: plain words, or mathematics to be set. */
export type MathRun = { readonly kind: "words" | "math"; readonly text: string };

/**
 * A note's words and mathematics: what stands between two dollar signs is mathematics, `\$` is a dollar sign. A dollar
 * sign that is not followed by another, or has nothing between, stands for itself.
 */
export function mathRuns(text: string): readonly MathRun[] {
  const runs: MathRun[] = [];
  let words = "";
  const flush = () => {
    if (words !== "") runs.push({ kind: "words", text: words });
    words = "";
  };
  for (let i = 0; i < text.length; i += 1) {
    const close = text[i] === "$" ? closingDollar(text, i + 1) : -1;
    if (text.startsWith("\\$", i)) {
      words += "$";
      i += 1;
    } else if (close >= 0) {
      const math = text.slice(i + 1, close);
      if (math.trim() === "") words += text.slice(i, close + 1);
      else {
        flush();
        runs.push({ kind: "math", text: math });
      }
      i = close;
    } else words += text[i];
  }
  flush();
  return runs;
}

function closingDollar(text: string, from: number): number {
  for (let i = from; i < text.length; i += 1) {
    if (text[i] === "\\") i += 1;
    else if (text[i] === "$") return i;
  }
  return -1;
}
