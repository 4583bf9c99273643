import type { Answers, MeantStep, MeantTry, Role, Try, Workings } from "../messages";
import type { Chapter } from "./chapter";

/** What `GET /api/rooms/<room>/replay` gives: what a replay's page needs before it shows anything. */
export type ReplayManifest = {
  readonly room: string;
  /** Title of the board as it is now. */
  readonly title: string;
  /** How many entries there are, counted from 1. */
  readonly length: number;
  /** When the first came and the last that is played, in milliseconds since 1970; both 0 where there are none. */
  readonly from: number;
  readonly to: number;
  readonly participants: readonly ReplayPerson[];
  readonly chapters: readonly Chapter[];
  /** Sequences at which a whole board is stored, rising: going to those is quickest. */
  readonly snapshots: readonly number[];
  readonly viewer: ReplayViewer;
};

/** Somebody of the room. `number` counts from 1, in the order in which they joined first. */
export type ReplayPerson = {
  readonly number: number;
  /** Their name, or "learner 3" where they asked not to be kept by name. */
  readonly name: string;
  readonly role: Role;
};

/** Who looks, and what that lets them do. */
export type ReplayViewer = {
  /** "instructor" sees all; "member" and "link" what learners saw. */
  readonly as: "instructor" | "member" | "link";
  /** Their number in the list; null for who came by a link. */
  readonly number: number | null;
  /** Whether they may make a new room from a moment. */
  readonly mayGoOn: boolean;
  /** Whether they may edit chapters, share, export, and say how long the room is kept. */
  readonly mayManage: boolean;
};

/** `GET …/replay/answers?at=<sequence>`. `revision` of the answers is the board's last change at that moment. */
export type ReplayAnswers = { readonly at: number; readonly answers: Answers; readonly outdated: Outdated };

/** What had been tried before a moment and is told otherwise there than when it was made. */
export type Outdated = {
  /** Those that were judged by another circuit than the one of the moment. */
  readonly tries: readonly MeantTry[];
  readonly steps: readonly MeantStep[];
  /** Tries of which something else is said by then, such as a total that follows from values which are not the newest any more. */
  readonly retold: readonly (MeantTry & Pick<Try, "judgement">)[];
};

/** `GET …/replay/workings?at=<sequence>`. */
export type ReplayWorkings = { readonly at: number; readonly workings: Workings };

/** What `POST …/replay/go-on` takes: the moment, and the asker's name in the new room. It gives a RoomCreated. */
export type GoOn = { readonly at: number; readonly name: string };

/** What `POST …/replay/chapters` takes. It gives the chapters as they are then. */
export type ChapterRequest =
  | { readonly do: "add"; readonly at: number; readonly title: string }
  | { readonly do: "rename"; readonly id: string; readonly title: string }
  | { readonly do: "remove"; readonly id: string };

/** One of `GET …/replay/links`. Times in milliseconds since 1970. */
export type ReplayLink = {
  readonly id: number;
  readonly madeAt: number;
  /** When it stops working by itself; null for never. */
  readonly until: number | null;
  readonly isRevoked: boolean;
};

/** What `POST …/replay/links` takes, and gives: `secret` is told this once and not kept. */
export type MakeLink = { readonly until: number | null };
export type LinkMade = { readonly link: ReplayLink; readonly secret: string };

/** The header in which a page brings the secret of the link that it was opened by. */
export const LINK_HEADER = "addend-replay-link";

/** How long a room is kept: forever, some days beyond the last that happened in it, or until a time (ms since 1970). */
export type Retention =
  | { readonly keep: "forever" }
  | { readonly keep: "days"; readonly days: number }
  | { readonly keep: "until"; readonly until: number };
