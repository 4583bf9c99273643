import { readSourceValue, type UnitSymbol } from "../quantity";
import { omegaOf } from "../solve/network";
import { phasorOf } from "../solve/solve";
import { comparableName, ENTRY_LIMIT } from "./characters";
import { dimensionOf, PURE, sameDimension } from "./dimension";
import { type EntryProblem, refuse, Unreadable } from "./entryProblem";
import { evaluate } from "./evaluate";
import type { Givens } from "./givens";
import { treeOf } from "./parse";
import type { Token } from "./token";
import { tokensOf } from "./tokens";
import { withUnitsOutside } from "./unitsOutside";
import { type Value, waveValue } from "./value";
import { writtenFigures } from "./writtenFigures";

/** What an entry is read against. */
export type EntryPlace = {
  readonly givens: Givens;
  /** In which measure the circuit's phasors are. */
  readonly measure: "peak" | "rms";
  /** The unit of what is asked. */
  readonly unit: UnitSymbol;
  /** The name of what is asked, which may stand before an equals sign. */
  readonly name: string;
};

/**
 * What was entered. `hasUnit` says that a unit, or a part that has one, stands somewhere in it; `figures` are those that it
 * is written with, see {@link writtenFigures}.
 */
export type Entry = Value & { readonly hasUnit: boolean; readonly figures: number | null };

export type EntryReading =
  | { readonly ok: true; readonly entry: Entry }
  | { readonly ok: false; readonly problem: EntryProblem };

/**
 * Reads what a learner enters as a value: a number with its unit (`1.2 mA`, `1/3 A`), an expression of numbers and the
 * circuit's parts (`8 mA * R2/(R1 + R2)`, `−15 V / (R1 ∥ 4.7k)`), a phasor (`3∠45° V`), a function of time
 * (`5 cos(1000 t + 30°) V`). `Ix =` may stand before it. Nothing is ever run: what the parser gives back is a tree of
 * values and signs. Reading takes a few milliseconds at most, whatever the text. Problems: every {@link EntryProblem}.
 */
export function readEntry(text: string, place: EntryPlace): EntryReading {
  try {
    return { ok: true, entry: entryOf(text, place) };
  } catch (error) {
    if (error instanceof Unreadable) return { ok: false, problem: error.problem };
    throw error;
  }
}

function entryOf(text: string, place: EntryPlace): Entry {
  if (text.length > ENTRY_LIMIT) refuse({ code: "tooLong", limit: ENTRY_LIMIT });
  const right = withoutName(text, place.name).trim();
  if (right === "") refuse({ code: "empty" });
  if (right.includes("@")) return sourceEntry(right, place);
  const tokens = tokensOf(right, place.givens, place.measure);
  const unitsOutside = withUnitsOutside(tokens);
  return unitsOutside ? fittingReading(tokens, unitsOutside, place) : entryFrom(tokens);
}

function entryFrom(tokens: readonly Token[]): Entry {
  return { ...evaluate(treeOf(tokens)), hasUnit: hasUnit(tokens), figures: writtenFigures(tokens) };
}

/** Of two readings the one that comes out in the unit asked for; the first where neither or both do. */
function fittingReading(tokens: readonly Token[], unitsOutside: readonly Token[], { unit }: EntryPlace): Entry {
  let refusal: Unreadable | null = null;
  let first: Entry | null = null;
  for (const reading of [tokens, unitsOutside]) {
    try {
      const entry = entryFrom(reading);
      if (entry.dimension !== "open" && sameDimension(entry.dimension, dimensionOf(unit))) return entry;
      first ??= entry;
    } catch (error) {
      if (!(error instanceof Unreadable)) throw error;
      refusal ??= error;
    }
  }
  if (first) return first;
  throw refusal;
}

function hasUnit(tokens: readonly Token[]): boolean {
  return tokens.some(
    (token) =>
      token.kind === "operand" && token.value.dimension !== "open" && !sameDimension(token.value.dimension, PURE),
  );
}

/** What stands behind `Ix =`, where the name is that of what is asked, with or without primes. */
function withoutName(text: string, name: string): string {
  const [left = "", right, ...more] = text.split(/[=≈]/);
  if (right === undefined) return text;
  const said = comparableName(left.replace(/[\s'’"′″‴*]/g, ""));
  if (more.length > 0 || (said !== "" && said !== comparableName(name))) return refuse({ code: "equation" });
  return right;
}

/** `12 V ∠ 30° @ 50 Hz`: a source's value, which says its frequency itself. */
function sourceEntry(text: string, { unit }: EntryPlace): Entry {
  const read = readSourceValue(text, unit === "A" ? "A" : "V");
  if (!read.ok) return refuse({ code: "quantity", problem: read.problem });
  if (read.value.kind === "dc") throw new Error("sourceEntry: a source with a frequency is constant");
  const phasor = phasorOf(read.value, "peak");
  return {
    ...waveValue(omegaOf(read.value.frequency), phasor, dimensionOf(unit === "A" ? "A" : "V")),
    hasUnit: true,
    figures: null,
  };
}
