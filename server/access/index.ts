export { decideJoin, type JoinRefusal } from "./admission";
export { cutWorkings, type Showing, wholeWorkings } from "./cutWorkings";
export { type Decision, decide } from "./decide";
export { hideAnswers } from "./hideAnswers";
export { Identity } from "./identity";
export { derivedInstructorKey, hashOfKey, instructorPath, isKeyOf, newInstructorKey } from "./instructorKey";
export { linesOfBoth } from "./lines";
export type { AccessChange, Member, RoomAccess } from "./roomAccess";
export { changed, drawingRefusal, findMember, isDrawer, OPEN_ACCESS, tryRefusal } from "./roomAccess";
export { newRoomCode } from "./roomCode";
export {
  accessSchema,
  changeSchema,
  chapterRequestSchema,
  createRoomSchema,
  faultText,
  goOnSchema,
  joinRoomSchema,
  makeLinkSchema,
  requestSchema,
  retentionSchema,
} from "./schemas";
export { takeSecret } from "./secretFile";
export { noWorkings, type WholeWorkings } from "./wholeWorkings";
