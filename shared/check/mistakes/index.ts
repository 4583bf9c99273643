export { explain, type MistakeBook, type MistakeBooks, mistakeBooks } from "./book";
export { type EarlierLines, type EarlierValue, NO_EARLIER_LINES } from "./earlier";
export type { Explanation } from "./explanation";
export { MISTAKE_CODES, type Mistake, type MistakeCode } from "./mistake";
export { explanationWords, followsText, type MistakeWords, mistakeWords, tellingQuestion } from "./mistakeText";
export type { Target } from "./target";
