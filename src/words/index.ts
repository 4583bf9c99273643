export { CircuitInWords, CircuitValues, ProblemList } from "./CircuitNotes";
export { circuitWords, kindWords, type PartWords } from "./circuitWords";
export { type ShownProblem, shownProblems } from "./problems";
