export type { Checked, Checker, CheckJob } from "./checker";
export { CheckThread } from "./checkThread";
export { readTry } from "./keptTry";
export { toldJudgement } from "./toldTry";
export { type DeskRoom, TryDesk } from "./tryDesk";
