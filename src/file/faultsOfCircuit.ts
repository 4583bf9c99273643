import { fileProblemText, readCircuitText } from "../../shared/circuit";

/** Every fault of a circuit file's text as a sentence that begins with its place in the file; none where it is whole. */
export function faultsOfCircuit(text: string): readonly string[] {
  const reading = readCircuitText(text);
  return reading.ok ? [] : reading.problems.map(fileProblemText);
}
