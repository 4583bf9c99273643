import { type EntryPlace, givensOf, readEntry } from "../../../../shared/check";
import { type Explanation, type MistakeBook, mistakeBooks } from "../../../../shared/check/mistakes";
import { partId } from "../../../../shared/circuit";
import { eachAlone, solveCircuit, unitOf } from "../../../../shared/solve";
import { circuitOf } from "../../../solve/solved";
import { fileOf } from "./fileOf";
import type { Question } from "./question";

/** Written figures that the room takes to be meant. */
const MOST_FIGURES = 10;

/** The room's side of a question: what it says to a text that is entered. */
export type Diagnosis = {
  /** What explains a text, in the order in which it is named. */
  readonly explained: (text: string, figures: number) => readonly Explanation[];
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
  return {
    explained: (text, figures) => {
      const reading = readEntry(text, place);
      if (!reading.ok) throw new Error(`${text} can't be read: ${JSON.stringify(reading.problem)}`);
      const { number, figures: written } = reading.entry;
      return book.explain(number, Math.max(figures, Math.min(written ?? 0, MOST_FIGURES)), measure);
    },
  };
}
