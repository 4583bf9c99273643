export type { HistoryEntry, HistoryStore, Snapshot, StoredRoom } from "./historyStore";
export { BOARD_UPDATE } from "./historyStore";
export { MemoryHistory } from "./memoryHistory";
export { PrismaHistory } from "./prismaHistory";
export { Recorder } from "./recorder";
