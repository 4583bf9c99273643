import type { Circuit, IndependentSource, Part } from "../../circuit";
import { isIndependentSource } from "../../circuit";
import { add, divide, integer, isZero, multiply, quantity, type Sinusoid, toNumber } from "../../quantity";
import { omegaOf } from "../../solve/network";
import { doubleAsRational } from "../rounded";
import { mistake } from "./mistake";
import { eachAndAll, isTwoEnded, type Mutation, opened, replacing, shorted, withParts } from "./target";

type Reactive = Extract<Part, { kind: "capacitor" | "inductor" }>;

/** Mistakes with capacitors and inductors, and with frequency and phase, in the circuit of one addend or of all sources. */
export function alternatingMistakes(acting: Circuit): readonly Mutation[] {
  const reactive = acting.parts.filter((part) => part.kind === "capacitor" || part.kind === "inductor");
  const sources = acting.parts.filter(isIndependentSource).filter((part) => sinusoidOf(part) !== null);
  if (sources.length === 0) return reactive.length === 0 ? [] : [swappedAtRest(acting, reactive)];
  const omegas = new Set(sources.map((part) => omegaOf((sinusoidOf(part) as Sinusoid<"V" | "A">).frequency)));
  const [omega] = omegas;
  return [
    ...(omega !== undefined && omegas.size === 1 ? atOneFrequency(acting, reactive, omega) : []),
    ...capacitorPairs(acting),
    ...(reactive.length > 0 ? hertzForRadians(acting) : []),
    ...eachAndAll(sources.filter(hasPhase)).map((parts) => withoutPhase(acting, parts)),
    ...sources.flatMap((part) => [90, -90].map((degrees) => turnedBy(acting, part, degrees))),
  ];
}

/** Constant sources: a capacitor taken for a short and an inductor for an open. */
function swappedAtRest(acting: Circuit, reactive: readonly Reactive[]): Mutation {
  return {
    mistake: mistake(
      "reactiveSwapped",
      reactive.map(({ id }) => id),
    ),
    circuit: replacing(acting, ...reactive.map((part) => (part.kind === "capacitor" ? shorted(part) : opened(part)))),
  };
}

function atOneFrequency(acting: Circuit, reactive: readonly Reactive[], omega: number): readonly Mutation[] {
  return setsOf(reactive).flatMap((parts) => {
    const ids = parts.map(({ id }) => id);
    const capacitors = parts.filter((part) => part.kind === "capacitor");
    return [
      {
        mistake: mistake("reactanceSignTurned", ids),
        circuit: replacing(acting, ...parts.map((part) => turned(part, omega))),
      },
      {
        mistake: mistake("reactanceAsResistance", ids),
        circuit: replacing(acting, ...parts.map((part) => resistive(part, omega))),
      },
      ...(capacitors.length === parts.length
        ? [{ mistake: mistake("capacitorInverted", ids), circuit: replacing(acting, ...capacitors.map(inverted)) }]
        : []),
    ];
  });
}

/** What a mistake is made on: one part, all of a kind, or all. */
function setsOf(reactive: readonly Reactive[]): readonly (readonly Reactive[])[] {
  const inductors = reactive.filter(({ kind }) => kind === "inductor");
  const capacitors = reactive.filter(({ kind }) => kind === "capacitor");
  const several = [inductors, capacitors].filter(({ length }) => length > 1);
  const isMixed = inductors.length > 0 && capacitors.length > 0;
  return [...reactive.map((part) => [part]), ...several, ...(isMixed ? [reactive] : [])];
}

/** The other kind of part, whose reactance at ω is as large. */
function turned({ id, plus, minus, ...part }: Reactive, omega: number): Part {
  const square = doubleAsRational(1 / (omega * omega));
  return part.kind === "capacitor"
    ? { kind: "inductor", id, plus, minus, inductance: quantity(divide(square, part.capacitance), "H") }
    : { kind: "capacitor", id, plus, minus, capacitance: quantity(divide(square, part.inductance), "F") };
}

function resistive({ id, plus, minus, ...part }: Reactive, omega: number): Part {
  const value =
    part.kind === "capacitor" ? 1 / (omega * toNumber(part.capacitance)) : omega * toNumber(part.inductance);
  return { kind: "resistor", id, plus, minus, resistance: quantity(doubleAsRational(value), "Ω") };
}

/** jωC taken for the impedance: that of an inductor of as many henries as there are farads. */
function inverted({ id, plus, minus, capacitance }: Extract<Part, { kind: "capacitor" }>): Part {
  return { kind: "inductor", id, plus, minus, inductance: quantity(capacitance, "H") };
}

/** Two capacitors in series added, or two in parallel taken by product over sum, as only resistors are. */
function capacitorPairs(acting: Circuit): readonly Mutation[] {
  const capacitors = acting.parts
    .filter((part) => part.kind === "capacitor")
    .filter(({ capacitance }) => !isZero(capacitance));
  const ends = (node: string): number =>
    acting.parts.filter((part) => !isTwoEnded(part) || part.plus === node || part.minus === node).length;
  return capacitors.flatMap((a, i) =>
    capacitors.slice(i + 1).flatMap((b): Mutation[] => {
      const shared = [a.plus, a.minus].filter((node) => node === b.plus || node === b.minus);
      const [sum, product] = [add(a.capacitance, b.capacitance), multiply(a.capacitance, b.capacitance)];
      const like = mistake("capacitorsLikeResistors", [a.id, b.id]);
      if (shared.length === 2) {
        const one = { ...a, capacitance: quantity(divide(product, sum), "F") };
        return [{ mistake: like, circuit: replacing(acting, one, opened(b)) }];
      }
      const [middle] = shared;
      if (middle === undefined || ends(middle) !== 2) return [];
      return [{ mistake: like, circuit: replacing(acting, { ...a, capacitance: quantity(sum, "F") }, shorted(b)) }];
    }),
  );
}

/** ω taken to be the number of hertz, or a given ω multiplied by 2π. */
function hertzForRadians(acting: Circuit): readonly Mutation[] {
  const circuit = withSinusoids(acting, (wave) => ({
    ...wave,
    frequency:
      wave.frequency.unit === "Hz"
        ? { unit: "rad/s", value: quantity(wave.frequency.value, "rad/s") }
        : { unit: "Hz", value: quantity(wave.frequency.value, "Hz") },
  }));
  return [{ mistake: mistake("hertzAsRadians"), circuit }];
}

function hasPhase(part: IndependentSource): boolean {
  const wave = sinusoidOf(part);
  return wave !== null && !isZero(wave.phase);
}

/** Sources taken as if each had a phase of 0°. */
function withoutPhase(acting: Circuit, sources: readonly IndependentSource[]): Mutation {
  const ids = sources.map(({ id }) => id);
  const circuit = withSinusoids(acting, (wave, { id }) =>
    ids.includes(id) ? { ...wave, phase: quantity(integer(0), "°") } : wave,
  );
  return { mistake: mistake("sourcePhaseMissing", ids), circuit };
}

/** A sine taken for a cosine of the same phase, or the other way about. */
function turnedBy(acting: Circuit, { id }: Part, degrees: number): Mutation {
  const circuit = withSinusoids(acting, (wave, part) =>
    part.id === id ? { ...wave, phase: quantity(add(wave.phase, integer(degrees)), "°") } : wave,
  );
  return { mistake: mistake("sineAsCosine", [id]), circuit };
}

/** An addend solved with the impedances at the frequency of another source. */
export function otherFrequencies(circuit: Circuit, acting: Circuit): readonly Mutation[] {
  const own = acting.parts.filter(isIndependentSource).flatMap((part) => sinusoidOf(part) ?? []);
  if (own.length === 0) return [];
  const known = new Set(own.map(({ frequency }) => omegaOf(frequency)));
  return circuit.parts.filter(isIndependentSource).flatMap((part): Mutation[] => {
    const other = sinusoidOf(part);
    if (other === null || known.has(omegaOf(other.frequency))) return [];
    known.add(omegaOf(other.frequency));
    const { frequency } = other;
    return [
      {
        mistake: mistake("otherFrequency", [part.id]),
        circuit: withSinusoids(acting, (wave) => ({ ...wave, frequency })),
      },
    ];
  });
}

function sinusoidOf(part: IndependentSource): Sinusoid<"V"> | Sinusoid<"A"> | null {
  const value = part.kind === "voltage-source" ? part.voltage : part.current;
  return value.kind === "sinusoid" ? value : null;
}

type WaveChange = <U extends "V" | "A">(wave: Sinusoid<U>, part: Part) => Sinusoid<U>;

function withSinusoids(circuit: Circuit, change: WaveChange): Circuit {
  return withParts(circuit, (part) => {
    if (part.kind === "voltage-source" && part.voltage.kind === "sinusoid") {
      return { ...part, voltage: change(part.voltage, part) };
    }
    if (part.kind === "current-source" && part.current.kind === "sinusoid") {
      return { ...part, current: change(part.current, part) };
    }
    return part;
  });
}
