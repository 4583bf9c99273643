export type { DerivedWorkings, DeriveJob, SolvedAnswers, Solver, SolverJob } from "./solver";
export { SolverPool } from "./solverPool";
