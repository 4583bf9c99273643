export { Announcer } from "./Announcer";
export { AnswersInWords } from "./AnswersInWords";
export { CircuitInWords, CircuitValues, ProblemList } from "./CircuitNotes";
export { kindWords } from "./circuitWords";
export { type ShownProblem, shownProblems } from "./problems";
export { wantedPlace, wantedWords } from "./wantedWords";
