import { type Entry, type EntryPlace, givensOf, readEntry } from "../../../../shared/check";
import { type Explanation, type MistakeBook, mistakeBooks } from "../../../../shared/check/mistakes";
import { partId } from "../../../../shared/circuit";
import { eachAlone, solveCircuit, unitOf } from "../../../../shared/solve";
import { circuitOf } from "../../../solve/solved";
import { fileOf } from "./fileOf";
import type { Question } from "./question";

/** Written figures that the room takes to be meant. */
const MOST_FIGURES = 10;

/** Values entered for addends before, as texts by their source. */
export type Before = Readonly<Record<string, string>>;

/** The room's side of a question: what it says to a text that is entered. */
export type Diagnosis = {
  /** What explains a text, in the order in which it is named. */
  readonly explained: (text: string, figures: number, before?: Before) => readonly Explanation[];
  /** The sources of the wrong values before of which a text is the right sum; null where it is no such sum. */
  readonly follows: (text: string, figures: number, before: Before) => readonly string[] | null;
};

/** Asks the room's catalogue. Throws where it has no value for the question, or cannot read the text. */
export function diagnosisOf(question: Question): Diagnosis {
  const circuit = circuitOf(fileOf(question));
  const [wanted] = circuit.wanted;
  if (!wanted) throw new Error("nothing is asked");
  const { measure } = solveCircuit(circuit);
  const isAlone = question.grouping.every(({ length }) => length === 1);
  const grouping = isAlone ? eachAlone(circuit) : question.grouping.map((sources) => sources.map(partId));
  const book: MistakeBook | null = mistakeBooks({ circuit, wanted, grouping }).of(question.acting?.map(partId) ?? null);
  if (book === null) throw new Error("the line has no value");
  const place: EntryPlace = {
    givens: givensOf(circuit, measure),
    measure,
    unit: unitOf(wanted),
    name: String(wanted.name),
  };
  const read = (text: string): Entry => {
    const reading = readEntry(text, place);
    if (!reading.ok) throw new Error(`${text} can't be read: ${JSON.stringify(reading.problem)}`);
    return reading.entry;
  };
  const addends = (before: Before) =>
    Object.entries(before).map(([id, text]) => ({ sources: [partId(id)], entered: read(text).number }));
  return {
    explained: (text, figures, before = {}) => {
      const { number, figures: written } = read(text);
      const compared = Math.max(figures, Math.min(written ?? 0, MOST_FIGURES));
      return book.explain(number, compared, measure, { addends: addends(before), zeroing: null });
    },
    follows: (text, figures, before) =>
      book.follows(read(text).number, figures, measure, addends(before))?.map((sources) => sources.join()) ?? null,
  };
}
