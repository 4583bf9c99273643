import { readAnyQuantity } from "../../quantity";
import { comparableName } from "../characters";
import { refuse } from "../entryProblem";
import type { Givens } from "../givens";
import type { NameReader } from "../reader";
import type { Meanings } from "./meanings";
import type { EquationPlace } from "./place";
import { type Meaning, meantValue, type Numbers } from "./quantity";

const CALL = /([VUIZvuizkKnN])_? ?\( *([^(),=]{1,40}?) *(?:, *([^(),=]{1,40}?) *)?\)/uy;
const WORD = /[\p{L}_][\p{L}\p{Nd}_₀-₉]*/uy;
const PRIMES = /['’′]{1,3}|["″]['’′]?|‴|⁽[¹²³⁴-⁹]⁾/uy;
/** What `V(…)` and `I(…)` can only be meant for. */
const NAME = /^\p{L}[\p{L}\p{Nd}_]*$/u;

/**
 * Reads names of quantities in an equation, with `numbers` as their values. A prime counts the addends of the whole
 * circuit (`Ix′`, `Ix″`); within an addend it says nothing new.
 */
export function nameReader(place: EquationPlace, givens: Givens, meanings: Meanings, numbers: Numbers): NameReader {
  return (text, at) => {
    const call = match(CALL, text, at);
    const called = call && calledMeaning(call, givens, meanings);
    const word = called ? null : match(WORD, text, at)?.[0];
    const meaning = called ?? (word ? wordMeaning(word, givens, meanings) : undefined);
    if (!meaning) return null;
    const name = (called ? call?.[0] : word) as string;
    const primes = match(PRIMES, text, at + name.length)?.[0] ?? "";
    const addend = place.sources === null && primes !== "" ? countOf(primes) - 1 : null;
    if (addend !== null && addend >= place.grouping.length) return refuse({ code: "noAddend", name: name + primes });
    const value = meantValue(meaning, addend, numbers);
    return value === null
      ? refuse({ code: "undetermined", name: name + primes })
      : { length: name.length + primes.length, value };
  };
}

function match(pattern: RegExp, text: string, at: number): RegExpExecArray | null {
  pattern.lastIndex = at;
  return pattern.exec(text);
}

function calledMeaning(
  [whole, letter = "", first = "", second]: RegExpExecArray,
  givens: Givens,
  meanings: Meanings,
): Meaning | undefined {
  const meaning = meanings.call(letter, first, second ?? null);
  if (meaning) return meaning;
  // A voltage or current of something that is not there, rather than volts times what is in the parentheses.
  const isName = NAME.test(first) && (second === undefined || NAME.test(second));
  const isQuantity = /[VUIvui]/.test(letter) && isName && !hasGiven(givens, first);
  return isQuantity ? refuse({ code: "unknownQuantity", name: whole }) : undefined;
}

/** A part's own name stands for its value, unless `_` says that something else is meant; a small-letter unit is one. */
export function wordMeaning(word: string, givens: Givens, meanings: Meanings): Meaning | undefined {
  if (givens.has(word)) return undefined;
  if (!word.includes("_") && (hasGiven(givens, word) || isSmallUnit(word))) return undefined;
  return meanings.word(word);
}

function hasGiven(givens: Givens, name: string): boolean {
  return [...givens.keys()].some((given) => comparableName(given) === comparableName(name));
}

/** `us` is microseconds, and no voltage of a node s. */
function isSmallUnit(word: string): boolean {
  return /^\p{Ll}/u.test(word) && readAnyQuantity(`1 ${word}`).ok;
}

function countOf(primes: string): number {
  const raised = "⁰¹²³⁴⁵⁶⁷⁸⁹".indexOf(primes.charAt(1));
  if (primes.startsWith("⁽")) return raised;
  return [...primes].reduce((count, prime) => count + (prime === "‴" ? 3 : /["″]/.test(prime) ? 2 : 1), 0);
}
