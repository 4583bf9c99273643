export type { SolvedAnswers, Solver, SolverJob } from "./solver";
export { SolverPool } from "./solverPool";
