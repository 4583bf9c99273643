import type { Circuit } from "../../circuit";
import { divide, integer, multiply, ONE, type Rational, reciprocal, sum } from "../../quantity";
import { mistake } from "./mistake";
import { askedPart, named, type Pair, pairsOf, type Resistor, type Stage, withResistance } from "./reduction";
import { opened, replacing, type Scaled, shorted } from "./target";

/** Each pair in series or in parallel, and each row or set of parallel ones that has more than two. */
export function togetherIn(stage: Stage): readonly Together[] {
  const pairs = pairsOf(stage).map(({ kind, a, b }): Together => ({ kind, resistors: [a, b] }));
  const sets = (["series", "parallel"] as const).flatMap((kind) =>
    joined(pairs.filter((each) => each.kind === kind).map(({ resistors }) => resistors)).map(
      (resistors): Together => ({ kind, resistors }),
    ),
  );
  return [...pairs, ...sets.filter(({ resistors }) => resistors.length > 2)];
}

export type Together = { readonly kind: Pair["kind"]; readonly resistors: readonly Resistor[] };

/** Sets that have a member in common made one. */
function joined(sets: readonly (readonly Resistor[])[]): readonly (readonly Resistor[])[] {
  return sets.reduce<readonly (readonly Resistor[])[]>((before, next) => {
    const isTouched = (each: readonly Resistor[]): boolean => each.some((resistor) => next.includes(resistor));
    const one = [...new Set([...before.filter(isTouched).flat(), ...next])];
    return [...before.filter((each) => !isTouched(each)), one];
  }, []);
}

/** Resistors that are in series or in parallel taken the other way about, or their reciprocals left as they are. */
export function togetherMistakes(stage: Stage, { kind, resistors }: Together): readonly Scaled[] {
  const { circuit, wanted } = stage;
  const asked = askedPart(wanted);
  const kept = resistors.find(({ id }) => id === asked) ?? (resistors[0] as Resistor);
  const gone = resistors.filter((each) => each !== kept);
  const parts = named(stage, ...resistors);
  const reciprocals = sum(resistors.map(({ resistance }) => reciprocal(resistance)));
  const equivalent = reciprocal(reciprocals);
  if (kind === "series") {
    const wrong = replacing(circuit, withResistance(kept, equivalent), ...gone.map(shorted));
    return [{ mistake: mistake("seriesAsParallel", parts), circuit: wrong, wanted }];
  }
  // What flows in all of them is then divided as it should be.
  const times = kept.id === asked ? divide(equivalent, kept.resistance) : ONE;
  const as = (resistance: Rational): Circuit =>
    replacing(circuit, withResistance(kept, resistance), ...gone.map(opened));
  const added = as(sum(resistors.map(({ resistance }) => resistance)));
  return [
    { mistake: mistake("parallelAsSeries", parts), circuit: added, wanted, times },
    ...[ONE, integer(1000000)].map((unit) => ({
      mistake: mistake("sumOfReciprocals", parts),
      circuit: as(multiply(reciprocals, unit)),
      wanted,
      times,
    })),
  ];
}
