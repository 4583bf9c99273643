export { boardUpdate, readStart, type StartReading } from "./readStart";
export { StartThread } from "./startThread";
