export { answersFor, manifestOf, workingsFor } from "./forMoment";
export { DeskBusy, MomentDesk } from "./momentDesk";
export { Replays } from "./replays";
export type { RoomReplay } from "./roomReplay";
export { type Viewer, viewerOf } from "./viewer";
