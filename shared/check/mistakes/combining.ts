import type { Circuit, Wanted } from "../../circuit";
import { isIndependentSource } from "../../circuit";
import { add, divide, integer, type Rational, rational, reciprocal, sum } from "../../quantity";
import { mistake } from "./mistake";
import {
  askedPart,
  endsAt,
  followedParts,
  NEW_NODE,
  named,
  parallel,
  type Resistor,
  resistorsOf,
  type Stage,
  stagesOf,
  withResistance,
} from "./reduction";
import { eachAndAll, type Mutation, opened, replacing, type Scaled, shorted } from "./target";
import { togetherIn, togetherMistakes } from "./together";

/** Mistakes in taking resistors together and in dividing currents and voltages among them. */
export function combiningMistakes(acting: Circuit, wanted: Wanted): readonly Scaled[] {
  const stages = stagesOf(acting, wanted);
  const followed = followedParts(acting);
  const seen = new Set<string>();
  const isNew = (key: string): boolean => {
    const isKnown = seen.has(key);
    seen.add(key);
    return !isKnown;
  };
  const taken = stages.flatMap((stage) =>
    togetherIn(stage)
      .filter(({ resistors }) => resistors.every(({ id }) => !followed.has(id)))
      .filter(({ kind, resistors }) => isNew([kind, ...named(stage, ...resistors)].join()))
      .flatMap((together) => togetherMistakes(stage, together)),
  );
  const divisions = stages.flatMap((stage) =>
    [...currentDivision(stage), ...voltageDivision(stage)].filter((each) =>
      isNew([each.mistake.code, each.times?.n, each.times?.d, ...each.mistake.parts].join()),
    ),
  );
  return [...divisions, ...taken, ...(stages[0] ? misplaced(stages[0]) : [])];
}

/** The current wanted is a share of what flows into resistors in parallel: wrong shares. */
function currentDivision(stage: Stage): readonly Scaled[] {
  const { circuit, wanted } = stage;
  if (wanted.kind !== "current") return [];
  const own = resistorsOf(circuit).find(({ id }) => id === wanted.through);
  if (own === undefined) return [];
  const others = resistorsOf(circuit).filter((other) => other !== own && isAcrossSame(other, own));
  if (others.length === 0 || isHeld(circuit, own)) return [];
  const r = own.resistance;
  const all = sum([r, ...others.map(({ resistance }) => resistance)]);
  const equivalent = reciprocal(sum([own, ...others].map(({ resistance }) => reciprocal(resistance))));
  const right = divide(equivalent, r);
  const rest = reciprocal(sum(others.map(({ resistance }) => reciprocal(resistance))));
  const parts = named(stage, own, ...others);
  const share = (
    code: "divisionTurned" | "undivided" | "evenSplit" | "equivalentOverSum" | "otherBranchesSummed",
    wrong: Rational,
  ) => ({
    mistake: mistake(code, parts),
    circuit,
    wanted,
    times: divide(wrong, right),
  });
  const two = [
    share("divisionTurned", divide(r, add(r, rest))),
    share("undivided", integer(1)),
    share("evenSplit", rational(1n, BigInt(others.length + 1))),
    share("equivalentOverSum", divide(equivalent, all)),
    share("equivalentOverSum", divide(equivalent, add(r, equivalent))),
  ];
  if (others.length === 1) return two;
  return [
    ...two,
    share("otherBranchesSummed", divide(sum(others.map(({ resistance }) => resistance)), all)),
    ...others.flatMap((other) =>
      [add(r, other.resistance), all].map((under) => ({
        mistake: mistake("oneOtherBranch", named(stage, own, other)),
        circuit,
        wanted,
        times: divide(divide(other.resistance, under), right),
      })),
    ),
  ];
}

/** The voltage wanted is a share of what stands across resistors in a row: wrong shares. */
function voltageDivision(stage: Stage): readonly Scaled[] {
  const { circuit, wanted } = stage;
  if (wanted.kind !== "voltage" && wanted.kind !== "open-circuit-voltage") return [];
  const isAsked = ({ plus, minus }: Resistor): boolean =>
    (plus === wanted.from && minus === wanted.to) || (plus === wanted.to && minus === wanted.from);
  const across = resistorsOf(circuit).filter(isAsked);
  const [own] = across;
  if (own === undefined || across.length > 1) return [];
  const ends = endsAt(circuit);
  const others = resistorsOf(circuit).filter(
    (each) => each !== own && [each.plus, each.minus].some((node) => isEnd(own, node) && ends.get(node) === 2),
  );
  if (isHeld(circuit, own)) return [];
  // In the middle of a row there is one on either side, and both together.
  return eachAndAll(others).flatMap((rest) => wrongVoltageShares(stage, own, rest));
}

function wrongVoltageShares(stage: Stage, own: Resistor, others: readonly Resistor[]): readonly Scaled[] {
  const { circuit, wanted } = stage;
  const rest = sum(others.map(({ resistance }) => resistance));
  const all = add(own.resistance, rest);
  const right = divide(own.resistance, all);
  const parts = named(stage, own, ...others);
  const share = (code: "divisionTurned" | "undivided" | "divisionUpsideDown" | "evenSplit", wrong: Rational) => ({
    mistake: mistake(code, parts),
    circuit,
    wanted,
    times: divide(wrong, right),
  });
  return [
    share("divisionTurned", divide(rest, all)),
    share("undivided", integer(1)),
    share("divisionUpsideDown", reciprocal(right)),
    share("evenSplit", rational(1n, BigInt(others.length + 1))),
  ];
}

const isEnd = ({ plus, minus }: Resistor, node: string): boolean => plus === node || minus === node;
const isAcrossSame = (a: Resistor, b: Resistor): boolean => isEnd(b, a.plus) && isEnd(b, a.minus);

/** Whether a voltage source stands across a resistor, so that nothing is divided. */
function isHeld({ parts }: Circuit, { plus, minus }: Resistor): boolean {
  return parts.some(
    (part) =>
      (part.kind === "voltage-source" || part.kind === "vcvs" || part.kind === "ccvs") &&
      [part.plus, part.minus].every((node) => node === plus || node === minus),
  );
}

/** Parts that do not count taken in, parts that count left out, and pairs that are none. */
function misplaced(stage: Stage): readonly Scaled[] {
  return [...besideSources(stage), ...dropped(stage), ...falsePairs(stage)].map((each) => ({
    ...each,
    wanted: stage.wanted,
  }));
}

/** A resistor across an ideal voltage source, or in series with a current source, taken to change what the source gives. */
function besideSources({ circuit }: Stage): readonly Mutation[] {
  const ends = endsAt(circuit);
  const resistors = resistorsOf(circuit);
  return circuit.parts.filter(isIndependentSource).flatMap((source): Mutation[] => {
    if (source.kind === "voltage-source") {
      return resistors
        .filter(({ plus, minus }) => [source.plus, source.minus].every((node) => node === plus || node === minus))
        .map((resistor) => ({
          mistake: mistake("parallelPartOfVoltageSource", [resistor.id, source.id]),
          circuit: replacing(
            circuit,
            { ...source, plus: NEW_NODE },
            { ...resistor, plus: NEW_NODE, minus: source.plus },
          ),
        }));
    }
    return resistors.flatMap((resistor) => {
      const near = [source.plus, source.minus].find((node) => isEnd(resistor, node) && ends.get(node) === 2);
      if (near === undefined || near === circuit.reference) return [];
      const far = resistor.plus === near ? resistor.minus : resistor.plus;
      const moved = source.plus === near ? { ...source, plus: far } : { ...source, minus: far };
      return [
        {
          mistake: mistake("seriesPartOfCurrentSource", [resistor.id, source.id]),
          circuit: replacing(circuit, moved, { ...resistor, plus: moved.plus, minus: moved.minus }),
        },
      ];
    });
  });
}

/** A resistor that carries current left out: as if it were a wire, or not there. */
function dropped({ circuit, wanted }: Stage): readonly Mutation[] {
  const asked = askedPart(wanted);
  return resistorsOf(circuit).flatMap((part): Mutation[] => {
    const as = part.id === asked ? [shorted(part)] : [shorted(part), opened(part)];
    return as.map((each) => ({ mistake: mistake("partDropped", [part.id]), circuit: replacing(circuit, each) }));
  });
}

function falsePairs({ circuit, wanted }: Stage): readonly Mutation[] {
  const ends = endsAt(circuit);
  const resistors = resistorsOf(circuit);
  const asked = askedPart(wanted);
  return resistors.flatMap((a) =>
    resistors.flatMap((b): Mutation[] => {
      const shared = [a.plus, a.minus].filter((node) => isEnd(b, node));
      const [middle] = shared;
      if (a === b || middle === undefined || shared.length > 1 || (ends.get(middle) ?? 0) < 3) return [];
      const parts = [a.id, b.id];
      const moved = (part: Resistor): Resistor =>
        part.plus === middle ? { ...part, plus: NEW_NODE } : { ...part, minus: NEW_NODE };
      // Series is the same pair either way about.
      const series =
        a.id < b.id
          ? [{ mistake: mistake("falseSeries", parts), circuit: replacing(circuit, moved(a), moved(b)) }]
          : [];
      if (b.id === asked) return series;
      const together = replacing(circuit, withResistance(a, parallel(a, b)), opened(b));
      return [...series, { mistake: mistake("falseParallel", parts), circuit: together }];
    }),
  );
}
