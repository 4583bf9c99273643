export type { EquationDiagnosis, EquationJudgement } from "./equationJudgement";
export { equationText } from "./equationText";
export { type EquationRules, judgeEquation } from "./judgeEquation";
export { type EquationPlace, equationPlace } from "./place";
