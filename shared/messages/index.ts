export type { Answers, SolverFailure } from "./answers";
export type {
  ApiErrorCode,
  ApiFailure,
  CreateRoom,
  JoinRoom,
  RoomCreated,
  RoomGlance,
  RoomJoined,
  RoomStart,
  RoomVisit,
  You,
} from "./api";
export { NAME_LENGTH } from "./api";
export type { HiddenAddend, HiddenReport, HiddenWanted } from "./hiddenReport";
export { noticeText, solverFailureText } from "./messageText";
export type { ChangeRefusal, Notice, RequestRefusal } from "./notice";
export type { Call, RoomAction, RoomRequest, RoomView } from "./roomRequest";
export type { Drawers, Participant, Role, RoomState, ShownAnswers } from "./roomState";
export { cardOf, isShown, TOTAL_CARD, tidyCard } from "./roomState";
export {
  MESSAGE_ANSWERS,
  MESSAGE_CALL,
  MESSAGE_NOTICE,
  MESSAGE_REQUEST,
  MESSAGE_ROOM,
  readAnswers,
  readCall,
  readNotice,
  readRoomState,
  writeAnswers,
  writeCall,
  writeNotice,
  writeRequest,
  writeRoomState,
} from "./serverMessage";
