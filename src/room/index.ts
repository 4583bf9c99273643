export { entryIdMaker } from "./entryIds";
export { keepPages } from "./keepPages";
export type { Link, RoomConnection, RoomState } from "./roomConnection";
export { isRoomName, ROOM_NAME_RULE } from "./roomName";
export { useRoom, useRoomState } from "./useRoom";
