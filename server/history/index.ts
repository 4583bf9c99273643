export { jsonBytes, readJson } from "./entryJson";
export type {
  EntryKind,
  HistoryEntry,
  HistoryStore,
  Snapshot,
  StoredBoard,
  StoredHead,
  StoredRoom,
} from "./historyStore";
export { ENTRY, NOBODY } from "./historyStore";
export { MemoryDirectory } from "./memoryDirectory";
export { MemoryHistory } from "./memoryHistory";
export { PrismaDirectory } from "./prismaDirectory";
export { PrismaHistory } from "./prismaHistory";
export { Recorder } from "./recorder";
export type { ListedRoom, ListedTry, RoomDirectory } from "./roomDirectory";
export { UNFINISHED } from "./roomDirectory";
