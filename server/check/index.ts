export type { Checked, Checker, CheckJob } from "./checker";
export { CheckThread } from "./checkThread";
export { countFound, foundIn } from "./found";
export { type KeptTry, readHelpEvent, readTry, triesFrom } from "./keptTry";
export { readStep, stepsFrom } from "./steps/keptStep";
export { toldOf } from "./steps/toldStep";
export { toldJudgement } from "./toldTry";
export { type DeskRoom, TryDesk } from "./tryDesk";
