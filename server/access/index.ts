export { decideJoin, type JoinRefusal } from "./admission";
export { cutWorkings, type Showing, wholeWorkings } from "./cutWorkings";
export { type Decision, decide } from "./decide";
export { type Found, hideAnswers } from "./hideAnswers";
export { Identity } from "./identity";
export { derivedInstructorKey, hashOfKey, instructorPath, isKeyOf, newInstructorKey } from "./instructorKey";
export { linesOfBoth } from "./lines";
export { isAboutClass, lookRefusal, openRefusal, TRY_ACCESS, tryAccess } from "./ownTry";
export type { AccessChange, Member, RoomAccess } from "./roomAccess";
export { changed, drawingRefusal, findMember, isDrawer, OPEN_ACCESS, tryRefusal } from "./roomAccess";
export { newRoomCode, newTryCode } from "./roomCode";
export {
  accessSchema,
  changeSchema,
  chapterRequestSchema,
  createRoomSchema,
  faultText,
  goOnSchema,
  joinRoomSchema,
  makeLinkSchema,
  nameSchema,
  openTrySchema,
  requestSchema,
  retentionSchema,
} from "./schemas";
export { takeSecret } from "./secretFile";
export { noWorkings, type WholeWorkings } from "./wholeWorkings";
