export { HomePage } from "./HomePage";
export { RoomPage } from "./RoomPage";
