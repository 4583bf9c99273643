export { type Omission, WORKING_LIMIT } from "./limit";
export type { Derivation, Equation, Fault, Line, Rule, Sketch, SketchElement, Zeroed } from "./line";
export { type PowerRow, type PowerTable, powerTableOf } from "./powerTable";
export type { SecondMethod } from "./secondMethods";
export { type AddendWorking, derive, type Working, type WorkingOptions, workingOf, workingsOf } from "./working";
export { equationText, workingText } from "./workingText";
export type { MathText } from "./writing";
