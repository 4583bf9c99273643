export { type Amount, type Constant, numberOf, type PhasorTerm, powerOf } from "./amount";
export { type Answer, answerOf, eachAlone, unitOf } from "./answers";
export { type Complex, magnitude, phaseDegrees } from "./complex";
export type { Response } from "./equations";
export { type LoopSolution, solveByLoops } from "./loops";
export type { Branch, Law, Network, Stimulus } from "./network";
export type {
  AddendReport,
  NodeReport,
  PartReport,
  PhasorShown,
  ProblemReport,
  Report,
  Shown,
  WantedReport,
} from "./report";
export { reportText } from "./reportText";
export {
  type ConstantSet,
  combine,
  EXACT_LIMIT,
  measureOf,
  type Port,
  type Solution,
  type SolvedSet,
  solveCircuit,
} from "./solve";
export { problemReport, type ReportOptions, solveReport } from "./solveReport";
export { type Addend, type Grouping, respondTo } from "./superposition";
