/** Sets LaTeX mathematics as markup: "html" to be looked at, "mathml" to be read aloud or copied, or both in one. */
export type MathSetter = (latex: string, output: "html" | "mathml" | "htmlAndMathml") => string;

// What is set may come from anybody: no links or images, no endless macros, nothing larger than a note.
const BOUNDS = { trust: false, maxExpand: 100, maxSize: 8 };

let setter: MathSetter | null = null;

/** KaTeX, which comes with the first formula of a page. Null where it does not come. */
export async function loadMathSetter(): Promise<MathSetter | null> {
  try {
    const { default: katex } = await import("katex");
    const settings = { throwOnError: false, strict: "ignore", ...BOUNDS } as const;
    setter ??= (latex, output) => katex.renderToString(latex, { output, ...settings });
  } catch {
    // Off line the library may not come.
  }
  return setter;
}

/** KaTeX, where it has come already. */
export function mathSetterNow(): MathSetter | null {
  return setter;
}
