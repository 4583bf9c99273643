export type { Answers, SolverFailure } from "./answers";
export { noticeText, solverFailureText } from "./messageText";
export type { Notice } from "./notice";
export {
  MESSAGE_ANSWERS,
  MESSAGE_NOTICE,
  readAnswers,
  readNotice,
  writeAnswers,
  writeNotice,
} from "./serverMessage";
