export { entryIdMaker } from "./entryIds";
export type { Link, RoomConnection, RoomState } from "./roomConnection";
export { isRoomName, ROOM_NAME_RULE } from "./roomName";
export { useRoom, useRoomState } from "./useRoom";
