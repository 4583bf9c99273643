export type { Checked, Checker, CheckJob } from "./checker";
export { CheckThread } from "./checkThread";
export { type DeskRoom, TryDesk } from "./tryDesk";
