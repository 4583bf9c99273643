/** Sets a formula's source into an element. */
export type MathSetter = (source: string, element: HTMLElement) => void;

// A note comes from anybody: no links or images, no endless macros, nothing larger than a note.
const BOUNDS = { trust: false, maxExpand: 100, maxSize: 8 };

let setter: MathSetter | null = null;

/** KaTeX, which also writes MathML for screen readers; it comes with the first formula of a page. Null where it does not come. */
export async function loadMathSetter(): Promise<MathSetter | null> {
  try {
    const { default: katex } = await import("katex");
    const settings = { output: "htmlAndMathml", throwOnError: false, strict: "ignore", ...BOUNDS } as const;
    setter ??= (source, element) => katex.render(source, element, settings);
  } catch {
    // Off line the library may not come.
  }
  return setter;
}

/** KaTeX, where it has come already. */
export function mathSetterNow(): MathSetter | null {
  return setter;
}
