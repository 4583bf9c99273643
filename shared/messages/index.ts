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
export { noticeText, solverFailureText, workingsFailureText } from "./messageText";
export type { ChangeRefusal, Notice, RequestRefusal } from "./notice";
export type { TryGlance, TryListed, TryOf, TryOpened, TryProgress } from "./ownTry";
export type { Call, RoomAction, RoomRequest, RoomView } from "./roomRequest";
export type { Drawers, Participant, Role, RoomState, ShownAnswers } from "./roomState";
export { cardOf, isShown, TOTAL_CARD, tidyCard } from "./roomState";
export {
  MESSAGE_ANSWERS,
  MESSAGE_CALL,
  MESSAGE_NOTICE,
  MESSAGE_REQUEST,
  MESSAGE_ROOM,
  MESSAGE_TRIES,
  MESSAGE_WORKINGS,
  readAnswers,
  readCall,
  readNotice,
  readRoomState,
  readTries,
  readWorkings,
  writeAnswers,
  writeCall,
  writeNotice,
  writeRequest,
  writeRoomState,
  writeTries,
  writeWorkings,
} from "./serverMessage";
export { type CardLines, type LineCount, linesOf, type ShownLines } from "./shownLines";
export {
  DECISION_CHOICES,
  DECISION_LIMIT,
  type Decisions,
  isMeantStep,
  isOfCard,
  isStepAction,
  type LineTry,
  type MeantStep,
  type StepAction,
  type StepHelpAction,
  type StepKind,
  type StepsMessage,
  type ToldLine,
  type TryLine,
  type TryZeroing,
  type UnreadLine,
  withStep,
  type ZeroingTry,
} from "./steps";
export {
  type HandIn,
  type HelpAction,
  isMeantTry,
  isSameCard,
  isTryAction,
  type MeantTry,
  type QuestionChoice,
  REASON_LENGTH,
  type ToldJudgement,
  TRY_LENGTH,
  type TriesMessage,
  type Try,
  type TryAction,
  type TryPlace,
  type TryRefusal,
  type TryReply,
  type TryValue,
  tryRefusalText,
  withTry,
} from "./tries";
export type { HelpQuestion, HelpReason, Rung, TryHelp } from "./tryHelp";
export { FIGURE_CHOICES, type FigureChoice, type Trying, USUAL_TRYING } from "./trying";
export type { ShownWorking, WorkingCard, Workings, WorkingsFailure } from "./workings";
