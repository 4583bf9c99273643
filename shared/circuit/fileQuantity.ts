import {
  isZero,
  type Quantity,
  quantity,
  readQuantity,
  readSourceValue,
  type SourceValue,
  type UnitSymbol,
  ZERO,
} from "../quantity";
import type { FilePath, FileProblem } from "./fileProblem";
import type { QuantityEntry } from "./fileQuantitySchema";
import type { PartKind } from "./part";

/** Where a quantity stands, whose it is, and where problems with it go. */
export type QuantitySite = {
  readonly path: FilePath;
  readonly subject: PartKind;
  readonly problems: FileProblem[];
};

/** What an element is read with: its path, what amplitudes are unless they say so, and where problems go. */
export type ElementContext = {
  readonly path: FilePath;
  readonly measure: "peak" | "rms";
  readonly problems: FileProblem[];
};

/** A decimal of so many digits survives being read into a double and written out again; a longer one may not. */
const DIGITS_OF_A_DOUBLE = 15;

/**
 * Reads one quantity of an element in `unit`. Where it cannot be read a problem is added and 0 returned, which nobody
 * sees: a file with problems gives no circuit.
 */
export function quantityFrom<U extends UnitSymbol>(given: QuantityEntry, unit: U, site: QuantitySite): Quantity<U> {
  const reading = readQuantity(textFrom(given, site), unit);
  if (reading.ok) return quantity(reading.value.value, unit);
  const { path, subject, problems } = site;
  problems.push({ path, code: "badQuantity", subject, takes: unit, problem: reading.problem });
  return quantity(ZERO, unit);
}

/** As {@link quantityFrom}, for the values that a part cannot have 0 of. */
export function nonZeroFrom<U extends UnitSymbol>(
  given: QuantityEntry,
  unit: U,
  site: QuantitySite & { readonly subject: "capacitor" | "inductor" | "ideal-transformer" },
): Quantity<U> {
  const { path, subject, problems } = site;
  const before = problems.length;
  const value = quantityFrom(given, unit, site);
  if (isZero(value) && problems.length === before) problems.push({ path, code: "zeroValue", subject });
  return value;
}

/** Reads a constant or the text of a sinusoid, as {@link quantityFrom} does; null where it cannot be read. */
export function sourceValueFrom<U extends "V" | "A">(
  given: QuantityEntry,
  unit: U,
  site: QuantitySite,
): SourceValue<U> | null {
  const reading = readSourceValue(textFrom(given, site), unit);
  if (reading.ok) return reading.value;
  const { path, subject, problems } = site;
  problems.push({ path, code: "badQuantity", subject, takes: unit, problem: reading.problem });
  return null;
}

function textFrom(given: QuantityEntry, { path, problems }: QuantitySite): string {
  if (typeof given === "string") return given;
  const text = String(given);
  const digits = text
    .replace(/e.*$/, "")
    .replace(/[^\d]/g, "")
    .replace(/^0+|0+$/g, "").length;
  if (digits > DIGITS_OF_A_DOUBLE) problems.push({ path, code: "numberOfManyDigits", digits });
  return text;
}
