export type { Checked, Checker, CheckJob } from "./checker";
export { CheckThread } from "./checkThread";
export { countFound, foundIn } from "./found";
export { type KeptTry, readTry, triesFrom, withTry } from "./keptTry";
export { toldJudgement } from "./toldTry";
export { type DeskRoom, TryDesk } from "./tryDesk";
