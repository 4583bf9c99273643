import type { EntryProblem } from "./entryProblem";
import type { Givens } from "./givens";
import type { Token } from "./token";

/** An expression that is being taken to pieces. `text` is in canonical characters; reading goes on at `at`. */
export type Reader = {
  readonly text: string;
  readonly givens: Givens;
  /** In which measure a phasor without a word for it is meant. */
  readonly measure: "peak" | "rms";
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
