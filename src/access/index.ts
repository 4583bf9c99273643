export {
  type Answer,
  type Asking,
  askBytes,
  askJson,
  createRoom,
  importSession,
  type Refusal,
  roomsVisited,
} from "./api";
export { RefusalPage } from "./RefusalPage";
export { RoomEntrance } from "./RoomEntrance";
export { RoomRemarks } from "./RoomRemarks";
export { rememberedName, rememberInside, rememberKey, rememberName } from "./remembered";
export { readRoomCode, tryPath } from "./roomLinks";
export { TryBand } from "./TryBand";
export { TryEntrance } from "./TryEntrance";
