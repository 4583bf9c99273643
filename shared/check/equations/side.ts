import { isClose } from "../closeness";
import { type Dimension, sameDimension } from "../dimension";
import { refuse, Unreadable, unlessUnreadable } from "../entryProblem";
import { evaluate } from "../evaluate";
import type { Givens } from "../givens";
import { treeOf } from "../parse";
import type { NameReader } from "../reader";
import type { Token } from "../token";
import { placedTokens } from "../tokens";
import { withUnitsOutside } from "../unitsOutside";
import type { Value } from "../value";

/** One side of an equation, in each way that it can be read, and what it adds up in the first of them. */
export type Side = { readonly readings: readonly Reading[]; readonly terms: readonly SideTerm[] };
export type Reading = { readonly value: Value; readonly tokens: readonly Token[] };

/** What stands between two signs of a side, with the sign before it. `text` is as it was written, without the sign. */
export type SideTerm = { readonly text: string; readonly sign: 1 | -1; readonly value: Value };

export type SideReader = {
  readonly givens: Givens;
  readonly measure: "peak" | "rms";
  readonly names: NameReader;
  /** The angular frequencies of the circuit, which those that are written stand for where they agree in `figures`. */
  readonly omegas: readonly number[];
  readonly figures: number;
};

/** Reads one side, which stands at `start` of the equation. Throws {@link Unreadable} with the place in the equation. */
export function readSide(text: string, start: number, reader: SideReader): Side {
  try {
    const { tokens: read, places } = placedTokens(text, reader.givens, reader.measure, reader.names);
    const tokens = read.map((token) => atKnownFrequency(token, reader));
    const [only, ...more] = tokens;
    // The V of `V = 15 V` is meant for a voltage, and not for one volt.
    if (more.length === 0 && only?.kind === "operand" && only.writing.as === "unit") {
      refuse({ code: "unknownQuantity", name: only.text });
    }
    const unitsOutside = withUnitsOutside(tokens);
    const readings = readingsOf(unitsOutside ? [tokens, unitsOutside] : [tokens]);
    return { readings, terms: termsOf(text, tokens, places) };
  } catch (error) {
    if (error instanceof Unreadable) error.at = start + (error.at ?? text.length - text.trimStart().length);
    throw error;
  }
}

/** A function of time whose frequency is one of the circuit's but for rounding, at that frequency. */
function atKnownFrequency(token: Token, { omegas, figures }: SideReader): Token {
  if (token.kind !== "operand" || token.value.number.kind !== "time") return token;
  const { constant, waves } = token.value.number.value;
  const known = waves.map((wave) => {
    const omega = omegas.find((each) => isClose(wave.omega, each, figures));
    return omega === undefined ? wave : { ...wave, omega };
  });
  return { ...token, value: { ...token.value, number: { kind: "time", value: { constant, waves: known } } } };
}

/** The value of the tokens of a side. Throws {@link Unreadable}. */
export function valueOfTokens(tokens: readonly Token[]): Value {
  return evaluate(treeOf(tokens));
}

function readingsOf(ways: readonly (readonly Token[])[]): readonly Reading[] {
  let refusal: Unreadable | null = null;
  const readings: Reading[] = [];
  for (const tokens of ways) {
    try {
      readings.push({ value: valueOfTokens(tokens), tokens });
    } catch (error) {
      if (!(error instanceof Unreadable)) throw error;
      refusal ??= error;
    }
  }
  if (readings.length === 0) throw refusal;
  return readings;
}

/** The terms of a side that has signs outside all parentheses; one for any other. None where they can't be told. */
function termsOf(
  text: string,
  tokens: readonly Token[],
  places: readonly (readonly [number, number])[],
): readonly SideTerm[] {
  const cuts: number[] = [];
  let depth = 0;
  tokens.forEach((token, i) => {
    if (token.kind === "open") depth += 1;
    if (token.kind === "close") depth -= 1;
    if (depth === 0 && i > 0 && isSum(token) && endsOperand(tokens[i - 1])) cuts.push(i);
  });
  const starts = [0, ...cuts];
  const terms = (): readonly SideTerm[] =>
    starts.map((from, i) => {
      const to = starts[i + 1] ?? tokens.length;
      const first = tokens[from];
      const hasSign = isSum(first);
      const own = tokens.slice(hasSign ? from + 1 : from, to);
      const [start] = places[hasSign ? from + 1 : from] ?? [0, 0];
      const [, end] = places[to - 1] ?? [0, 0];
      const sign = first?.kind === "sign" && first.sign === "-" ? -1 : 1;
      return { text: text.slice(start, end).trim(), sign, value: valueOfTokens(own) };
    });
  // `3/7 mS` is one thing to the side and another one to its terms: then nothing is said of terms.
  return unlessUnreadable(terms) ?? [];
}

function isSum(token: Token | undefined): boolean {
  return token?.kind === "sign" && (token.sign === "+" || token.sign === "-");
}

function endsOperand(token: Token | undefined): boolean {
  return token?.kind === "operand" || token?.kind === "close" || token?.kind === "power";
}

/** The readings of two sides that agree in their unit, or what the first of each are of. */
export function matched(left: Side, right: Side): Matched {
  for (const a of left.readings) {
    for (const b of right.readings) if (agree(a.value, b.value)) return { ok: true, left: a, right: b };
  }
  const [a, b] = [left.readings[0] as Reading, right.readings[0] as Reading];
  return { ok: false, left: a.value.dimension as Dimension, right: b.value.dimension as Dimension };
}

export type Matched =
  | { readonly ok: true; readonly left: Reading; readonly right: Reading }
  | { readonly ok: false; readonly left: Dimension; readonly right: Dimension };

function agree(a: Value, b: Value): boolean {
  return a.dimension === "open" || b.dimension === "open" || sameDimension(a.dimension, b.dimension);
}
