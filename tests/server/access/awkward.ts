import type { WholeWorkings } from "../../../server/access";
import type { Derived } from "../../../server/solver/deriveJob";
import { deriveReading } from "../../../server/solver/deriveJob";
import type { Circuit, PartId } from "../../../shared/circuit";
import { cardOf } from "../../../shared/messages";
import { eachAlone } from "../../../shared/solve";
import type { CircuitJson } from "../../generators/circuits";
import { circuitOf } from "../../solve/solved";

const PRIMES = [
  1009, 1151, 1303, 1481, 1607, 1759, 1913, 2081, 2239, 2389, 2551, 2719, 2879, 3049, 3229, 3391, 3559, 3727,
];

/** The circuit with values of which no two make a number that another makes: what is equal is so for a reason. */
export function awkward(json: CircuitJson): CircuitJson {
  let next = 0;
  const instead = (text: unknown) =>
    typeof text === "string" ? text.replace(/^-?[\d/]+/, () => String(PRIMES[next++ % PRIMES.length])) : text;
  const elements = json.elements.map((element) => {
    const numbers = Object.entries(element).filter(([key]) => NUMBERS.includes(key));
    return { ...element, ...Object.fromEntries(numbers.map(([key, field]) => [key, instead(field)])) };
  });
  return { ...json, elements };
}

const NUMBERS = ["value", "gain", "ratio"];

/** Everything about a circuit's workings, with some of its sources taken together as well. */
export function wholeOf(json: CircuitJson, groups: readonly (readonly string[])[]): WholeWorkings & Derived {
  const circuit = circuitOf(json);
  const reading = { circuit, alone: eachAlone(circuit), groups: groups as readonly (readonly PartId[])[] };
  return { revision: 1, ...deriveReading(reading, Number.POSITIVE_INFINITY) };
}

/** Sets of two or more sources, each once. */
export function groupsFrom(circuit: Circuit, choices: readonly number[]): readonly (readonly PartId[])[] {
  const ids = eachAlone(circuit).flat();
  const chosen = choices
    .map((bits) => ids.filter((_, index) => (bits >> index) & 1))
    .filter(({ length }) => length > 1);
  return [...new Map(chosen.map((group) => [cardOf(group), group])).values()];
}
