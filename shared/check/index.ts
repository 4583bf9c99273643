export type { Dimension } from "./dimension";
export type { EntryProblem } from "./entryProblem";
export { entryProblemText } from "./entryProblemText";
export { type Givens, givensOf } from "./givens";
export { judge } from "./judge";
export { type Diagnosis, type Judgement, type JudgingRules, USUAL_RULES, type ValueForm } from "./judgement";
export { judgementText } from "./judgementText";
export { type Entry, type EntryPlace, type EntryReading, readEntry } from "./readEntry";
export { type RightNumber, type RightValue, rightValue } from "./rightValue";
