import type { UnitSymbol } from "./unit";

type UnitEntry = {
  /** What a number with this unit is, with its article: "a resistance". */
  readonly kind: string;
  /** The unit's name after a number: "ohms". */
  readonly name: string;
  /** How people write the unit; the first is how we do. */
  readonly spellings: readonly string[];
  /** Whether a prefix may stand before the unit in what is read, and does in what is written. */
  readonly prefixed: { readonly read: boolean; readonly written: boolean };
};

const ALWAYS = { read: true, written: true };
const NEVER = { read: false, written: false };

/** A volt per ampere is an ohm and an ampere per volt a siemens: the gains of dependent sources are often so written. */
const UNITS: { readonly [U in UnitSymbol]: UnitEntry } = {
  Ω: {
    kind: "a resistance",
    name: "ohms",
    spellings: ["Ω", "ohm", "Ohm", "ohms", "Ohms", "OHM", "V/A"],
    prefixed: ALWAYS,
  },
  S: { kind: "a conductance", name: "siemens", spellings: ["S", "℧", "mho", "A/V"], prefixed: ALWAYS },
  V: { kind: "a voltage", name: "volts", spellings: ["V", "v"], prefixed: ALWAYS },
  A: { kind: "a current", name: "amperes", spellings: ["A", "a"], prefixed: ALWAYS },
  W: { kind: "a power", name: "watts", spellings: ["W", "w"], prefixed: ALWAYS },
  F: { kind: "a capacitance", name: "farads", spellings: ["F"], prefixed: ALWAYS },
  H: { kind: "an inductance", name: "henries", spellings: ["H"], prefixed: ALWAYS },
  Hz: { kind: "a frequency", name: "hertz", spellings: ["Hz"], prefixed: ALWAYS },
  "rad/s": {
    kind: "an angular frequency",
    name: "radians per second",
    spellings: ["rad/s"],
    // 1000 rad/s is how the trade writes it; krad/s is read, not written.
    prefixed: { read: true, written: false },
  },
  s: { kind: "a time", name: "seconds", spellings: ["s"], prefixed: ALWAYS },
  "°": { kind: "an angle", name: "degrees", spellings: ["°", "deg"], prefixed: NEVER },
  "1": { kind: "a pure number", name: "", spellings: ["V/V", "A/A"], prefixed: NEVER },
};

/** SI prefixes by power of ten (SI Brochure, 9th ed., table 7), as far as circuits need them; the empty one is 10⁰. */
const PREFIX_BY_POWER: ReadonlyMap<number, string> = new Map([
  [12, "T"],
  [9, "G"],
  [6, "M"],
  [3, "k"],
  [0, ""],
  [-3, "m"],
  [-6, "µ"],
  [-9, "n"],
  [-12, "p"],
  [-15, "f"],
]);

export const PREFIX_POWERS: readonly number[] = [...PREFIX_BY_POWER.keys()];

/** Prefixes as read, from text in canonical characters, where u stands for both code points of µ. */
const PREFIXES_READ: ReadonlyMap<string, number> = new Map([
  ...[...PREFIX_BY_POWER]
    .map(([power, prefix]) => [prefix === "µ" ? "u" : prefix, power] as const)
    .filter(([prefix]) => prefix !== ""),
  ["K", 3],
]);

/** What the letters after a number stand for: a unit (null where only a prefix was written) and a power of ten. */
export type Suffix = { readonly unit: UnitSymbol | null; readonly power: number };

const SUFFIXES: ReadonlyMap<string, Suffix> = new Map(allSuffixes());

function* allSuffixes(): Generator<[string, Suffix]> {
  for (const [prefix, power] of PREFIXES_READ) yield [prefix, { unit: null, power }];
  for (const [symbol, { spellings, prefixed }] of Object.entries(UNITS)) {
    const unit = symbol as UnitSymbol;
    for (const spelling of spellings) {
      yield [spelling, { unit, power: 0 }];
      if (!prefixed.read) continue;
      for (const [prefix, power] of PREFIXES_READ) yield [prefix + spelling, { unit, power }];
    }
  }
  yield ["V/mA", { unit: "Ω", power: 3 }];
  // Letter code of IEC 60062 with nothing behind the letter: 470R, 10L. Its K, M, G, p, n are prefixes above already.
  yield ["R", { unit: "Ω", power: 0 }];
  yield ["L", { unit: "Ω", power: -3 }];
}

/** The unit and prefix that `word` stands for, null where it is neither. */
export function findSuffix(word: string): Suffix | null {
  return SUFFIXES.get(word) ?? null;
}

/** Words that differ from `word` only in capitals: `MHz` and `mHz` for `mhz`. Empty where nothing comes close. */
export function similarSuffixes(word: string): readonly string[] {
  const lower = word.toLowerCase();
  return [...SUFFIXES.keys()].filter((known) => known.toLowerCase() === lower);
}

/** Whether `word` is a prefix before something that has a prefix of its own, which the SI forbids (`mµF`, `kk`). */
export function isDoublePrefix(word: string): boolean {
  const rest = SUFFIXES.get(word.slice(1));
  return PREFIXES_READ.has(word.charAt(0)) && rest !== undefined && rest.power !== 0;
}

/** The prefix for 10^power; throws RangeError for a power that has none here. */
export function prefixOf(power: number): string {
  const prefix = PREFIX_BY_POWER.get(power);
  if (prefix === undefined) throw new RangeError(`no prefix for 10^${power}`);
  return prefix;
}

/** Whether we write prefixes before this unit. */
export function takesPrefix(unit: UnitSymbol): boolean {
  return UNITS[unit].prefixed.written;
}

/** `a current (A)`, `a pure number`. */
export function kindWithSymbol(unit: UnitSymbol): string {
  return unit === "1" ? UNITS[unit].kind : `${UNITS[unit].kind} (${unit})`;
}

/** `a resistance in ohms (Ω)`, `a pure number`. */
export function kindInUnits(unit: UnitSymbol): string {
  const { kind, name } = UNITS[unit];
  return unit === "1" ? kind : `${kind} in ${name} (${unit})`;
}
