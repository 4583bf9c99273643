export type * from "./circuit";
export type * from "./part";
export { isDependentSource, isIndependentSource, nodeId, partId, terminalsOf, unreachable } from "./part";
export type * from "./problem";
