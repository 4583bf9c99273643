export { answersFor, manifestOf, mayGoOn, workingsFor } from "./forMoment";
export { DeskBusy, MomentDesk } from "./momentDesk";
export { Removal } from "./removal";
export { Replays } from "./replays";
export type { RoomReplay } from "./roomReplay";
export { type Viewer, viewerOf } from "./viewer";
