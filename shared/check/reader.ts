import type { EntryProblem } from "./entryProblem";
import type { Givens } from "./givens";
import type { Token } from "./token";
import type { Value } from "./value";

/** Reads a name that is no part's at a place of a text; null where none stands there. Throws {@link Unreadable}. */
export type NameReader = (text: string, at: number) => { readonly length: number; readonly value: Value } | null;

/** An expression that is being taken to pieces. `text` is in canonical characters; reading goes on at `at`. */
export type Reader = {
  readonly text: string;
  readonly givens: Givens;
  /** In which measure a phasor without a word for it is meant. */
  readonly measure: "peak" | "rms";
  /** For names besides those of the parts, where there are any. */
  readonly names: NameReader | null;
  readonly tokens: Token[];
  at: number;
};

/** Moves past `pattern`, which is sticky, where it matches here; null where it does not. */
export function take(reader: Reader, pattern: RegExp): RegExpExecArray | null {
  pattern.lastIndex = reader.at;
  const match = pattern.exec(reader.text);
  if (match) reader.at += match[0].length;
  return match;
}

export type Refused = { readonly ok: false; readonly problem: EntryProblem };
