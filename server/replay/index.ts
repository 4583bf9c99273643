export { writeArchive } from "./archive";
export { answersFor, manifestOf, workingsFor } from "./forMoment";
export { DeskBusy, MomentDesk } from "./momentDesk";
export { type ArchiveReading, readArchive, type Session } from "./readArchive";
export { type Rebuilt, rebuild } from "./rebuild";
export { Removal } from "./removal";
export { Replays } from "./replays";
export type { RoomReplay } from "./roomReplay";
export { type Viewer, viewerOf } from "./viewer";
