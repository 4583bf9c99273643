export type { Peer } from "./peer";
export { Room, type RoomServices } from "./room";
export { RoomRegistry, RoomsFull } from "./roomRegistry";
