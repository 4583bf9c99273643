import type { Derivation, Line, Sketch } from "../../shared/derive";
import { exactNumerals } from "../../shared/derive/numerals";
import { cardOf, TOTAL_CARD } from "../../shared/messages";
import { readRational, type UnitSymbol } from "../../shared/quantity";
import type { PhasorShown, Report, Shown } from "../../shared/solve";
import type { Tell } from "./wholeWorkings";

type Answer = { readonly value: Shown; readonly unit: string };
type Written = Pick<Line, "equations" | "rule" | "parts"> & { readonly text: string };

/** What everybody knows of the circuit: the values of its parts as lines write them, and the parts that are asked about. */
export type Known = { readonly given: ReadonlySet<string>; readonly asked: ReadonlySet<string> };

/** Significant figures of lines and reports. */
const DIGITS = 4;
/** Doubles that differ by less than this share come from two ways to one number. */
const AGREEMENT = 1e-9;

/**
 * Which answers the lines of an addend or a group tell, and from which line on. Those of its own card, to whatever is
 * wanted, the last line tells at the latest. Those of cards with some of the same sources, and of the total, lines may
 * come to on their way: a source need not reach every node, and parts taken together may be what was asked.
 *
 * A line tells an answer if an equation results in it, with either sign, or if it has its number anywhere, unless that
 * is the value of a part (`given`). An answer of 0 is told by words too: that nothing flows or drives, or that a source
 * which is asked about is zeroed; the 0 A and 0 V of other zeroed sources tell nothing. What another card has in common
 * with this one, and 0, is told by this one's answer.
 */
export function tellsOf(
  derivation: Derivation,
  sources: readonly string[],
  report: Report,
  { given, asked }: Known,
): readonly Tell[] {
  const lines = derivation.lines.map((line) => writtenLine(line, derivation.sketches));
  const firstOf = (answers: readonly Answer[]) => {
    const numbers = answers.filter((answer) => !isZero(answer)).flatMap(writings);
    const texts = numbers.filter((text) => !given.has(text));
    const hasZero = answers.some(isZero);
    return lines.findIndex((line) => tells(line, answers, texts) || (hasZero && tellsZero(line, asked)));
  };
  const card = cardOf(sources);
  const own = answersOf(report, card);
  const ownFrom = firstOf(own);
  const others = [...new Set([...overlapping(report, sources), TOTAL_CARD])].map((other): Tell => {
    const answers = answersOf(report, other).filter(
      (answer) => !isZero(answer) && !own.some((each) => isOne(each, answer)),
    );
    return { card: other, from: firstOf(answers) };
  });
  return [{ card, from: ownFrom < 0 ? lines.length - 1 : ownFrom }, ...others].filter(({ from }) => from >= 0);
}

/** The other cards that some of these sources act in. */
function overlapping({ partials }: Report, sources: readonly string[]): string[] {
  const sharing = partials.filter((partial) => partial.sources.some((source) => sources.includes(source)));
  return sharing.map((partial) => cardOf(partial.sources)).filter((card) => card !== cardOf(sources));
}

/** All answers of a card; the card of all sources has the total's as well. */
function answersOf({ wanted, sources }: Report, card: string): Answer[] {
  const hasTotal = card === TOTAL_CARD || card === cardOf(sources.map(({ id }) => id));
  return wanted.flatMap(({ unit, addends, total, components }) => [
    ...addends.filter((addend) => cardOf(addend.sources) === card).map(({ value }) => ({ value, unit })),
    ...(hasTotal && total ? [{ value: total, unit }, ...components] : []),
  ]);
}

/** The number of an answer as a result and, where it is a short fraction, as it is put into formulas; without its sign. */
function writings({ value, unit }: Answer): string[] {
  const fraction = value.exact === null ? null : readRational(value.exact);
  const figures = fraction === null ? [] : [exactNumerals(DIGITS).figure(fraction, unit as UnitSymbol).text];
  return [value.text, ...figures].map(unsigned);
}

function writtenLine(line: Line, sketches: readonly Sketch[]): Written {
  const text = JSON.stringify([line, line.sketch === null ? null : sketches[line.sketch]]);
  return { equations: line.equations, rule: line.rule, parts: line.parts, text };
}

/** Rules whose words say that nothing flows in parts, or drives them. */
const NOTHING_HERE: readonly Line["rule"]["kind"][] = ["drop", "nothing-flows", "steady-state"];

/** Whether a line says in words that there is nothing in what is asked about, or may be. */
function tellsZero({ rule, parts }: Written, asked: ReadonlySet<string>): boolean {
  return NOTHING_HERE.includes(rule.kind) || (rule.kind === "zero-sources" && parts.some((part) => asked.has(part)));
}

function tells({ equations, text }: Written, answers: readonly Answer[], texts: readonly string[]): boolean {
  const isResult = equations.some(
    ({ result, unit }) => result !== null && answers.some((answer) => isOne(answer, { value: result, unit })),
  );
  return isResult || texts.some((number) => hasNumber(text, number));
}

/** Whether a text has a number with its unit in it, and not as the end of a longer number or the beginning of a longer word. */
function hasNumber(text: string, number: string): boolean {
  for (let at = text.indexOf(number); at >= 0; at = text.indexOf(number, at + 1)) {
    const [before, after] = [text[at - 1] ?? "", text[at + number.length] ?? ""];
    if (!/[\d.,/]/.test(before) && !/[\p{L}\d]/u.test(after)) return true;
  }
  return false;
}

const unsigned = (text: string): string => text.replace(/^[−-]/, "");

const isZero = ({ value }: Answer): boolean => termsOf(value).length === 0;

/** Whether two are one number but for the sign; of sums over frequencies, whether they share a term. */
function isOne(one: Answer, other: Answer): boolean {
  if (one.unit !== other.unit) return false;
  const [a, b] = [one.value, other.value];
  if (a.exact !== null && b.exact !== null) return unsigned(a.exact) === unsigned(b.exact);
  const [known, found] = [termsOf(a), termsOf(b)];
  if (known.length === 0 || found.length === 0) return known.length === found.length;
  return found.some((term) => known.some((each) => isSameTerm(term, each)));
}

type Term = Pick<PhasorShown, "omega" | "magnitude" | "phaseDegrees">;

/** The terms of an amount that are not 0; none for 0. */
function termsOf({ decimal, phasors }: Shown): Term[] {
  const constant: Term = { omega: 0, magnitude: Math.abs(decimal ?? 0), phaseDegrees: 0 };
  return [constant, ...phasors].filter(({ magnitude }) => magnitude > 0);
}

function isSameTerm(one: Term, other: Term): boolean {
  const isNear = (a: number, b: number) => Math.abs(a - b) <= AGREEMENT * Math.max(a, b);
  const turn = Math.abs(((one.phaseDegrees - other.phaseDegrees) % 180) + 180) % 180;
  return isNear(one.omega, other.omega) && isNear(one.magnitude, other.magnitude) && Math.min(turn, 180 - turn) < 1e-6;
}
