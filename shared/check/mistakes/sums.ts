import { isZero } from "../../quantity";
import { type Amount, answerOf, magnitude, solveCircuit } from "../../solve";
import { complex } from "../../solve/complex";
import { negatedAmount, sumOfAmounts } from "./amounts";
import { mistake } from "./mistake";
import { actingCircuit, amountIn, type Candidate, knownCandidate, type Target } from "./target";

type Named = { readonly sources: Target["grouping"][number]; readonly amount: Amount };

/** Mistakes in adding up the addends of a total. */
export function sumMistakes({ circuit, wanted, grouping }: Target): readonly Candidate[] {
  if (wanted.kind === "power") return powersAdded({ circuit, wanted, grouping });
  const solution = solveCircuit({ ...circuit, wanted: [wanted] });
  const addends = answerOf(solution, wanted, grouping).addends.map(({ sources, amount }) => ({ sources, amount }));
  if (addends.length < 2) return [];
  const sumWith = (change: (addend: Named) => readonly Amount[]): Amount => sumOfAmounts(addends.flatMap(change));
  const inEach = (
    code: "addendForgotten" | "addendSignTurned" | "sourceCountedTwice",
    of: (amount: Amount) => readonly Amount[],
  ) =>
    addends.map((one) =>
      knownCandidate(
        mistake(code, one.sources),
        sumWith((addend) => (addend === one ? of(addend.amount) : [addend.amount])),
      ),
    );
  return [
    ...inEach("addendForgotten", () => []),
    ...inEach("addendSignTurned", (amount) => [negatedAmount(amount)]),
    ...inEach("sourceCountedTwice", (amount) => [amount, amount]),
    ...signsIgnored(addends),
    ...frequenciesMixed(addends),
  ];
}

/** Sizes added: of constants those without their sign, of phasors those without their phase. */
function signsIgnored(addends: readonly Named[]): readonly Candidate[] {
  const parts = addends.flatMap(({ sources }) => sources);
  const isConstant = addends.every(({ amount }) => amount.phasors.length === 0);
  const sizes = addends.map(({ amount }): Amount => {
    const { constant, phasors } = amount;
    const isNegative = constant !== null && (constant.numbers === "exact" ? constant.value.n < 0n : constant.value < 0);
    return {
      constant: isNegative ? negatedAmount(amount).constant : constant,
      phasors: phasors.map((term) => ({ ...term, value: complex(magnitude(term.value)) })),
    };
  });
  return [knownCandidate(mistake(isConstant ? "signsIgnored" : "magnitudesAdded", parts), sumOfAmounts(sizes))];
}

/** Phasors of different frequencies added as if they had one, whichever of them that is taken to be. */
function frequenciesMixed(addends: readonly Named[]): readonly Candidate[] {
  const terms = addends.flatMap(({ amount }) => amount.phasors);
  const byOmega = new Map(terms.map((term) => [term.omega, term]));
  if (byOmega.size < 2) return [];
  const parts = addends.flatMap(({ sources }) => sources);
  return [...byOmega.values()].map((one) => {
    const value = sumOfAmounts(terms.map((term) => ({ constant: null, phasors: [{ ...one, value: term.value }] })));
    return knownCandidate(mistake("frequenciesMixed", parts), value);
  });
}

/** A power found by adding the powers that the sources give one by one. */
function powersAdded({ circuit, wanted, grouping }: Omit<Target, "sources">): readonly Candidate[] {
  const powers = grouping.map((sources) => amountIn(actingCircuit(circuit, sources), wanted));
  if (powers.length < 2 || powers.some((power) => power === null)) return [];
  const value = sumOfAmounts(powers.flatMap((power) => power ?? []));
  const isNothing = value.constant?.numbers === "exact" && isZero(value.constant.value);
  return isNothing ? [] : [knownCandidate(mistake("powersAdded", grouping.flat()), value)];
}
