export type { Derivation, Equation, Fault, Line, Rule, Sketch, SketchElement, Zeroed } from "./line";
export type { SecondMethod } from "./secondMethods";
export { type AddendWorking, type Working, type WorkingOptions, workingOf, workingsOf } from "./working";
export { equationText, workingText } from "./workingText";
export type { MathText } from "./writing";
