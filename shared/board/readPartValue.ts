import {
  type Farad,
  type Henry,
  isZero,
  type Ohm,
  type QuantityProblem,
  quantity,
  type Ratio,
  type Reading,
  readQuantity,
  readSourceValue,
  type Siemens,
  type SourceValue,
  type UnitSymbol,
  unreachable,
} from "../quantity";
import type { BoardPart } from "./board";
import type { BoardProblem } from "./problem";

/** What a value's text says, for each kind of part that has one. */
export type PartValue = {
  readonly resistor: Ohm;
  readonly capacitor: Farad;
  readonly inductor: Henry;
  readonly "voltage-source": SourceValue<"V">;
  readonly "current-source": SourceValue<"A">;
  readonly vcvs: Ratio;
  readonly vccs: Siemens;
  readonly ccvs: Ohm;
  readonly cccs: Ratio;
  readonly "ideal-transformer": Ratio;
};
export type KindWithValue = keyof PartValue;

/** The unit that a value of each kind is read in. */
export const VALUE_UNIT = {
  resistor: "Ω",
  capacitor: "F",
  inductor: "H",
  "voltage-source": "V",
  "current-source": "A",
  vcvs: "1",
  vccs: "S",
  ccvs: "Ω",
  cccs: "1",
  "ideal-transformer": "1",
} as const satisfies Record<KindWithValue, UnitSymbol>;

type Valued = Extract<BoardPart, { readonly value: string }>;
type ValueReading<K extends KindWithValue> =
  | { readonly ok: true; readonly value: PartValue[K] }
  | { readonly ok: false; readonly problem: BoardProblem };

/** Reads a part's value; a value that is missing or cannot be read comes back as a problem beside that part. */
export function readPartValue<K extends KindWithValue>(part: Valued & { readonly kind: K }): ValueReading<K> {
  const { id: entry, name } = part;
  if (part.value.trim() === "") {
    return { ok: false, problem: { code: "missingValue", entry, name, example: exampleValue(part.kind) } };
  }
  const reading = readValueText(part.kind, part.value);
  if (reading.ok) return isForbiddenZero(part.kind, reading.value) ? zeroValue(part) : reading;
  return { ok: false, problem: { code: "unreadableValue", entry, name, problem: reading.problem } };
}

/** No capacitor, inductor or transformer is left at the value 0; for a resistor or source it has a meaning. */
function isForbiddenZero(kind: KindWithValue, value: PartValue[KindWithValue]): boolean {
  const isForbidden = kind === "capacitor" || kind === "inductor" || kind === "ideal-transformer";
  return isForbidden && "n" in value && isZero(value);
}

function zeroValue({ id: entry, name, kind }: Valued): { readonly ok: false; readonly problem: BoardProblem } {
  return { ok: false, problem: { code: "zeroValue", entry, name, example: exampleValue(kind) } };
}

/** Reads a text as the value of a part of this kind. */
export function readValueText<K extends KindWithValue>(
  kind: K,
  text: string,
): { readonly ok: true; readonly value: PartValue[K] } | { readonly ok: false; readonly problem: QuantityProblem } {
  return readers[kind](text);
}

const exactIn =
  <U extends UnitSymbol>(unit: U) =>
  (text: string) => {
    const reading = readQuantity(text, unit);
    return reading.ok ? { ok: true as const, value: quantity(reading.value.value, unit) } : reading;
  };

const readers: { readonly [K in KindWithValue]: (text: string) => Reading<PartValue[K]> } = {
  resistor: exactIn("Ω"),
  capacitor: exactIn("F"),
  inductor: exactIn("H"),
  "voltage-source": (text) => readSourceValue(text, "V"),
  "current-source": (text) => readSourceValue(text, "A"),
  vcvs: exactIn("1"),
  vccs: exactIn("S"),
  ccvs: exactIn("Ω"),
  cccs: exactIn("1"),
  "ideal-transformer": exactIn("1"),
};

function exampleValue(kind: KindWithValue): string {
  switch (kind) {
    case "resistor":
      return "3.3k";
    case "capacitor":
      return "22 µF";
    case "inductor":
      return "15 mH";
    case "voltage-source":
      return "9 V";
    case "current-source":
      return "5 mA";
    case "vcvs":
    case "cccs":
      return "4";
    case "vccs":
      return "2 mS";
    case "ccvs":
      return "500 Ω";
    case "ideal-transformer":
      return "10";
    default:
      return unreachable(kind);
  }
}
