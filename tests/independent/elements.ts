import { type Complex, complex, create, all as everything, type Fraction } from "mathjs";

/**
 * The elements of a circuit file as they stand in its JSON, read here a second time and on purpose without any code
 * of shared/: what the tableau gives must not depend on a reader that both routes share.
 */
export type RawElement = {
  readonly id: string;
  readonly kind: string;
  readonly nodes: readonly string[];
  readonly value?: string | number;
  readonly amplitude?: string | number;
  readonly phase?: string | number;
  readonly omega?: string | number;
  readonly frequency?: string | number;
  readonly waveform?: string;
  readonly control?: {
    readonly voltage?: readonly string[];
    readonly current?: string;
    readonly direction?: string;
  };
  readonly gain?: string | number;
  readonly gain_unit?: string;
  readonly ratio?: string | number;
  readonly state?: string;
};

/** The part of a circuit file that its equations depend on. */
export type RawCircuit = { readonly elements: readonly RawElement[]; readonly reference?: string | null };

/** mathjs with rational numbers throughout; its `lup` and `lusolve` then compute exactly. */
export const exact = create(everything ?? {}, { number: "Fraction" });

const PREFIX_POWER: Readonly<Record<string, number>> = { p: -12, n: -9, µ: -6, μ: -6, u: -6, m: -3, k: 3, M: 6, G: 9 };
const VALUE = /^([+-]?\d+(?:\.\d+)?(?:\/\d+)?) ?([pnµμumkMG]?)(Ω|V|A|F|H|S|W|Hz|rad\/s|°|s)?$/u;

/** Exact number in the coherent SI unit of `"4.7 µF"`, `"1/3 A"`, `"-4 V"`, `"60 Hz"`, `"90°"` or a bare number. Throws on anything else. */
export function exactValue(text: string | number): Fraction {
  const match = VALUE.exec(String(text));
  if (!match) throw new Error(`no value in ${JSON.stringify(text)}`);
  const [, digits = "", prefix = ""] = match;
  const power = PREFIX_POWER[prefix] ?? 0;
  const scale = exact.fraction(`1${"0".repeat(Math.abs(power))}`);
  const number = exact.fraction(digits);
  return power < 0 ? (exact.divide(number, scale) as Fraction) : (exact.multiply(number, scale) as Fraction);
}

export function isSource(element: RawElement): boolean {
  return element.kind === "voltage-source" || element.kind === "current-source";
}

/** Angular frequency of an independent source in rad/s; 0 for a constant one. */
export function omegaOf(source: RawElement): number {
  if (source.amplitude === undefined) return 0;
  if (source.omega !== undefined) return exactValue(source.omega).valueOf();
  if (source.frequency !== undefined) return 2 * Math.PI * exactValue(source.frequency).valueOf();
  throw new Error(`${source.id}: a sinusoid without frequency`);
}

/** Phasor of a sinusoidal source for cos(ωt), in the measure (peak or rms) in which its amplitude is given. */
export function phasorOf(source: RawElement): Complex {
  const degrees = exactValue(source.phase ?? 0).valueOf() - (source.waveform === "sin" ? 90 : 0);
  const magnitude = exactValue(source.amplitude ?? 0).valueOf();
  const angle = (degrees * Math.PI) / 180;
  return complex(magnitude * Math.cos(angle), magnitude * Math.sin(angle));
}
