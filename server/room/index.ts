export type { Peer } from "./peer";
export { Room, type RoomServices } from "./room";
export { EntryRefused, RoomRegistry } from "./roomRegistry";
