export { type Candidates, candidatesOf } from "./candidates";
export { type Explanation, explain, explainAmong } from "./explain";
export { MISTAKE_CODES, type Mistake, type MistakeCode } from "./mistake";
export { explanationWords, type MistakeWords, mistakeWords, tellingQuestion } from "./mistakeText";
export type { Target } from "./target";
