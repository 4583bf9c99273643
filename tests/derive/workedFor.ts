import { expect } from "vitest";
import { equationText, type Line, type Working, type WorkingOptions, workingsOf } from "../../shared/derive";
import { circuitOf } from "../solve/solved";

/** A part of a circuit file: its name, kind, nodes, value, and for some kinds what else they need. */
export type Part = readonly [
  id: string,
  kind: string,
  nodes: readonly string[],
  value: string | null,
  more?: Readonly<Record<string, unknown>>,
];
export type Asked = Readonly<Record<string, string>>;

/** The one working of a circuit, which has no faults. */
export function workingFor(parts: readonly Part[], wanted: Asked, options: WorkingOptions = {}): Working {
  const elements = parts.map(([id, kind, nodes, value, more]) => ({
    id,
    kind,
    nodes,
    ...(value === null ? {} : { value }),
    ...more,
  }));
  const [working] = workingsOf(circuitOf({ elements, reference: "0", wanted: [wanted] } as never), options);
  if (working === undefined) throw new Error("no working");
  expect(working.faults).toEqual([]);
  return working;
}

export const R = (id: string, a: string, b: string, value: string): Part => [id, "resistor", [a, b], value];
export const V = (id: string, plusNode: string, minusNode: string, value: string): Part => [
  id,
  "voltage-source",
  [plusNode, minusNode],
  value,
];
export const I = (id: string, tail: string, head: string, value: string): Part => [
  id,
  "current-source",
  [tail, head],
  value,
];

export function rulesOf(lines: readonly Line[]): string[] {
  return lines.map(({ rule }) => rule.kind);
}

export const firstLines = ({ addends }: Working): readonly Line[] => addends[0]?.derivation.lines ?? [];
export const lastText = (lines: readonly Line[]): string => equationText(lines.at(-1)?.equations.at(-1) as never);
/** Every equation of a derivation, as text. */
export const textsOf = (lines: readonly Line[]): string[] =>
  lines.flatMap(({ equations }) => equations.map((equation) => equationText(equation)));
