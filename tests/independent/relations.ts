import type { Fraction } from "mathjs";
import { exact, exactValue, type RawElement } from "./elements";
import type { Field } from "./field";

/** `element` seen as a graph edge; an op amp and a transformer have two. */
export type Branch = {
  readonly name: string;
  readonly element: RawElement;
  readonly from: string;
  readonly to: string;
};

export type Layout = {
  readonly branches: readonly Branch[];
  readonly nodes: readonly string[];
  readonly grounded: ReadonlySet<string>;
  /** A source follows a voltage that no equation fixes, so there is no solution to speak of. */
  readonly isOpenEnded: boolean;
};

/** One equation Σ coefficient·unknown = right-hand side, the latter zero unless `source` is acting. */
export type Equation<S> = { readonly terms: readonly (readonly [string, S])[]; readonly source?: RawElement };

/** What a branch adds to the equations besides Kirchhoff's laws. Throws where the tableau does not know the kind. */
export function relationsOf<S>({ name, element }: Branch, layout: Layout, field: Field<S>): Equation<S>[] {
  const number = (value: number | Fraction) => field.number(typeof value === "number" ? exact.fraction(value) : value);
  const value = () => exactValue(element.value ?? "missing");
  const gain = () => exactValue(element.gain ?? "missing");
  const minus = (fraction: Fraction) => exact.unaryMinus(fraction) as Fraction;
  const [v, i] = [`v ${name}`, `i ${name}`];
  const zeroVoltage: Equation<S> = { terms: [[v, number(1)]] };
  const zeroCurrent: Equation<S> = { terms: [[i, number(1)]] };
  const followed = (quantity: string) => ({
    terms: [[quantity, number(1)] as const, ...controlOf(element, layout, field, minus(gain()))],
  });
  switch (element.kind) {
    case "resistor":
      return [
        {
          terms: [
            [v, number(1)],
            [i, number(minus(value()))],
          ],
        },
      ];
    case "inductor":
      return [
        {
          terms: [
            [v, number(1)],
            [i, field.timesS(minus(value()))],
          ],
        },
      ];
    case "capacitor":
      return [
        {
          terms: [
            [i, number(1)],
            [v, field.timesS(minus(value()))],
          ],
        },
      ];
    case "voltage-source":
      return [{ ...zeroVoltage, source: element }];
    case "current-source":
      return [{ ...zeroCurrent, source: element }];
    case "vcvs":
    case "ccvs":
      return [followed(v)];
    case "vccs":
    case "cccs":
      return [followed(i)];
    case "ideal-opamp":
      return name === element.id ? [] : [zeroVoltage, zeroCurrent];
    case "ideal-transformer":
      return transformerRelation(name, element, field);
    case "switch":
      return [element.state === "closed" ? zeroVoltage : zeroCurrent];
    case "wire":
      return [zeroVoltage];
    default:
      throw new Error(`${name}: the tableau knows no ${element.kind}`);
  }
}

function controlOf<S>(element: RawElement, layout: Layout, field: Field<S>, factor: Fraction): [string, S][] {
  const { voltage, current, direction } = element.control ?? {};
  const minus = exact.unaryMinus(factor) as Fraction;
  if (current !== undefined) return [[`i ${current}`, field.number(direction === "backward" ? minus : factor)]];
  const [plusNode = "", minusNode = ""] = voltage ?? [];
  const ends = [
    [plusNode, factor],
    [minusNode, minus],
  ] as const;
  return ends.flatMap(([node, coefficient]): [string, S][] =>
    layout.grounded.has(node) ? [] : [[`e ${node}`, field.number(coefficient)]],
  );
}

/** v₁ − n·v₂ = 0 at the primary, n·i₁ + i₂ = 0 at the secondary, both currents into the dotted ends. */
function transformerRelation<S>(name: string, element: RawElement, field: Field<S>): Equation<S>[] {
  const ratio = exactValue(element.ratio ?? "missing");
  const one = field.number(exact.fraction(1));
  const id = element.id;
  if (name === `${id} primary`) {
    const minusRatio = field.number(exact.unaryMinus(ratio) as Fraction);
    return [
      {
        terms: [
          [`v ${id} primary`, one],
          [`v ${id} secondary`, minusRatio],
        ],
      },
    ];
  }
  return [
    {
      terms: [
        [`i ${id} primary`, field.number(ratio)],
        [`i ${id} secondary`, one],
      ],
    },
  ];
}
