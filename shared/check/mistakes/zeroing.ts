import type { Circuit, Part, PartId } from "../../circuit";
import { isDependentSource, isIndependentSource } from "../../circuit";
import { isZero, multiply, quantity, type Rational } from "../../quantity";
import { mistake } from "./mistake";
import {
  actingCircuit,
  amountIn,
  eachAndAll,
  type Mutation,
  opened,
  otherSources,
  replacing,
  shorted,
  sourcesOf,
} from "./target";

/** What becomes of the circuit of one addend where a source is zeroed the wrong way, or stays on. */
export function zeroingMistakes(circuit: Circuit, sources: readonly PartId[]): readonly Mutation[] {
  const acting = actingCircuit(circuit, sources);
  const others = otherSources(circuit, sources);
  const voltages = others.filter((part) => part.kind === "voltage-source");
  const currents = others.filter((part) => part.kind === "current-source");
  const ids = (parts: readonly Part[]) => parts.map(({ id }) => id);
  return [
    ...others.map(({ id }) => ({
      mistake: mistake("sourceLeftOn", [id]),
      circuit: actingCircuit(circuit, [...sources, id]),
    })),
    ...(others.length > 1 ? [{ mistake: mistake("everySourceLeftOn", ids(others)), circuit }] : []),
    ...eachAndAll(voltages).map((parts) => ({
      mistake: mistake("voltageSourceOpened", ids(parts)),
      circuit: replacing(acting, ...parts.map(opened)),
    })),
    ...eachAndAll(currents).map((parts) => ({
      mistake: mistake("currentSourceShorted", ids(parts)),
      circuit: replacing(acting, ...parts.map(shorted)),
    })),
    ...(voltages.length > 0 && currents.length > 0
      ? [
          {
            mistake: mistake("zeroingSwapped", ids(others)),
            circuit: replacing(acting, ...voltages.map(opened), ...currents.map(shorted)),
          },
        ]
      : []),
  ];
}

/** The circuit of an addend with its own sources zeroed too, so that nothing acts in it. */
export function nothingActing(circuit: Circuit, sources: readonly PartId[]): Mutation {
  return { mistake: mistake("actingZeroed", sources), circuit: actingCircuit(circuit, []) };
}

/** Dependent sources treated as independent ones: zeroed, or held at the value that they have with all sources on. */
export function dependentMistakes(circuit: Circuit, sources: readonly PartId[]): readonly Mutation[] {
  const acting = actingCircuit(circuit, sources);
  const isTotal = sources.length === sourcesOf(circuit).length;
  return circuit.parts.filter(isDependentSource).flatMap((part): Mutation[] => {
    const isVoltage = part.kind === "vcvs" || part.kind === "ccvs";
    const right = isVoltage ? shorted(part) : opened(part);
    const wrong = isVoltage ? opened(part) : shorted(part);
    const zeroed = [right, wrong].map((as) => ({
      mistake: mistake("dependentZeroed", [part.id]),
      circuit: replacing(acting, as),
    }));
    const frozen = isTotal ? null : frozenSource(circuit, part);
    if (frozen === null) return zeroed;
    return [...zeroed, { mistake: mistake("dependentFrozen", [part.id]), circuit: replacing(acting, frozen) }];
  });
}

type Dependent = Extract<Part, { kind: "vcvs" | "vccs" | "ccvs" | "cccs" }>;

/** An independent source of the value that a dependent one has in a circuit of constants; null for any other. */
function frozenSource(circuit: Circuit, part: Dependent): Part | null {
  const control = controlValue(circuit, part);
  if (control === null || isZero(control)) return null;
  const value = multiply(part.gain, control);
  const { id, plus, minus } = part;
  if (part.kind === "vcvs" || part.kind === "ccvs") {
    return { kind: "voltage-source", id, plus, minus, voltage: { kind: "dc", value: quantity(value, "V") } };
  }
  return { kind: "current-source", id, plus, minus, current: { kind: "dc", value: quantity(value, "A") } };
}

function controlValue(circuit: Circuit, part: Dependent): Rational | null {
  const amount =
    part.kind === "vcvs" || part.kind === "vccs"
      ? amountIn(circuit, { name: null, kind: "voltage", from: part.control.plus, to: part.control.minus })
      : amountIn(circuit, {
          name: null,
          kind: "current",
          through: part.control.part,
          winding: "primary",
          direction: part.control.direction,
        });
  if (amount === null || amount.phasors.length > 0 || amount.constant?.numbers !== "exact") return null;
  return amount.constant.value;
}

/** One of the acting sources read with its polarity, or its arrow, turned round. */
export function polarityMistakes(circuit: Circuit, sources: readonly PartId[]): readonly Mutation[] {
  if (sources.length < 2) return [];
  const acting = actingCircuit(circuit, sources);
  return acting.parts.filter(isIndependentSource).map((part) => ({
    mistake: mistake("polarityTurned", [part.id]),
    circuit: replacing(acting, { ...part, plus: part.minus, minus: part.plus }),
  }));
}
