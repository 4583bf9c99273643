import { type EntryPlace, givensOf, readEntry } from "../../../../shared/check";
import { type Mistake, type MistakeBook, mistakeBooks } from "../../../../shared/check/mistakes";
import { partId } from "../../../../shared/circuit";
import { eachAlone, solveCircuit, unitOf } from "../../../../shared/solve";
import { circuitOf } from "../../../solve/solved";
import { fileOf } from "./fileOf";
import type { Question } from "./question";

/** The room's side of a question: what it says to a text that is entered. */
export type Diagnosis = {
  /** The mistakes that explain a text, in the order in which they are named; pairs of mistakes as well. */
  readonly explained: (text: string, figures: number) => readonly (readonly Mistake[])[];
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
      return book.explain(reading.entry.number, figures, measure).map(({ mistakes }) => mistakes);
    },
  };
}
