export { type Chapter, ChapterFinder, type ChapterSubject } from "./chapter";
export { CHAPTER_TITLE_LENGTH, type ChapterEdit } from "./chapterEdit";
export { chapterText } from "./chapterText";
export { type Checkpoint, readCheckpoint, writeCheckpoint } from "./checkpoint";
export { type Chunk, type ReplayEntry, readChunk, writeChunk } from "./chunk";
export {
  type HelpTold,
  isHelpTold,
  type ReplayEvent,
  type ReplayHelp,
  type ReplayQuestion,
  type ReplaySettings,
  type ReplayStep,
  type ReplayTry,
  readEvent,
  type SettingChange,
} from "./event";
export { type Idle, idleStretches, playedTo } from "./idle";
export { KINDS, kindOfNumber, numberOfKind } from "./kinds";
export type {
  ChapterRequest,
  GoOn,
  LinkMade,
  MakeLink,
  Outdated,
  ReplayAnswers,
  ReplayLink,
  ReplayManifest,
  ReplayPerson,
  ReplayViewer,
  ReplayWorkings,
  Retention,
} from "./manifest";
export { LINK_HEADER } from "./manifest";
export { afterEvent, BEGINNING, type Look, type MadeStep, type MadeTry, type Moment } from "./moment";
export { type PointerSample, readTrack, SAMPLE_INTERVAL, spotAt, TRACK_SPAN, writeTrack } from "./pointerTrack";
export { type Finding, type Query, SearchIndex } from "./searchIndex";
export {
  type EntryHead,
  lastPlayed,
  nextEdit,
  readTimeline,
  sequenceAt,
  type Timeline,
  timelineOf,
  timeOf,
  writeTimeline,
} from "./timeline";
