export type { Solver, SolverJob } from "./solver";
export { SolverPool } from "./solverPool";
