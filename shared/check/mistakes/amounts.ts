import { multiply, negate, ONE, type Rational, toNumber } from "../../quantity";
import type { Amount, Constant } from "../../solve";
import { addConstants, NOTHING } from "../../solve/amount";
import { addComplex, complex, multiplyComplex } from "../../solve/complex";

/** An amount so many times. */
export function scaledAmount(amount: Amount, times: Rational): Amount {
  const factor = complex(toNumber(times));
  return {
    constant: amount.constant && scaledConstant(amount.constant, times),
    phasors: amount.phasors.map((term) => ({ ...term, value: multiplyComplex(term.value, factor) })),
  };
}

function scaledConstant(constant: Constant, times: Rational): Constant {
  if (constant.numbers === "exact") return { numbers: "exact", value: multiply(constant.value, times) };
  return { numbers: "doubles", value: constant.value * toNumber(times) };
}

export function negatedAmount(amount: Amount): Amount {
  return scaledAmount(amount, negate(ONE));
}

/** The sum of amounts; phasors add where they have one frequency. */
export function sumOfAmounts(amounts: readonly Amount[]): Amount {
  const constants = amounts.flatMap(({ constant }) => constant ?? []);
  const phasors = new Map<number, Amount["phasors"][number]>();
  for (const term of amounts.flatMap((amount) => amount.phasors)) {
    const before = phasors.get(term.omega);
    phasors.set(term.omega, before ? { ...before, value: addComplex(before.value, term.value) } : term);
  }
  return {
    constant: constants.length === 0 ? null : constants.reduce(addConstants, NOTHING),
    phasors: [...phasors.values()],
  };
}
