import type { Role } from "./roomState";

/** What `POST /api/rooms` takes: a name for the room's maker, and what the board begins with. */
export type CreateRoom = { readonly name: string; readonly from: RoomStart };

export type RoomStart =
  | { readonly kind: "blank" }
  | { readonly kind: "example"; readonly id: string }
  /** The JSON value of a circuit file. */
  | { readonly kind: "file"; readonly file: unknown };

/** The instructor's link is `/room/<room>#key=<instructorKey>`; the key is told this once and not kept. */
export type RoomCreated = { readonly room: string; readonly instructorKey: string };

/** What `POST /api/rooms/<room>/join` takes. Without `as` a newcomer is a learner, and a member stays what they are. */
export type JoinRoom = {
  readonly name: string;
  readonly key?: string;
  readonly as?: "learner" | "observer";
  /** Whether replays may call them by this name; without it a newcomer's name is kept, and a member's choice stays. */
  readonly keepName?: boolean;
};

/** Who this browser is in a room. The name may have got a number behind it. */
export type You = { readonly id: string; readonly name: string; readonly role: Role };

export type RoomJoined = { readonly you: You };

/** What `GET /api/rooms/<room>` gives. `you` is null for somebody who has not joined, or was removed. */
export type RoomGlance = {
  readonly room: string;
  readonly exists: boolean;
  readonly title: string;
  readonly isEnded: boolean;
  /** Whether nobody new can join it but with an instructor's link. */
  readonly isLocked: boolean;
  readonly you: You | null;
  /** Of a try that whoever asks may see, the room that it is a try of; nothing else of it is told here. Null for a room. */
  readonly tryOf: string | null;
};

/** One of `GET /api/me/rooms`, latest first. The title is the one it had when they were last there. */
export type RoomVisit = {
  readonly room: string;
  readonly title: string;
  readonly role: Role;
  /** Milliseconds since 1970. */
  readonly lastSeen: number;
};

/** The body of every answer that is no success. */
export type ApiFailure = { readonly error: { readonly code: ApiErrorCode; readonly text: string } };

export type ApiErrorCode =
  | "badRequest"
  | "badFile"
  | "unknownExample"
  | "unknownRoom"
  | "wrongKey"
  | "removed"
  /** Somebody else's own try. */
  | "notYours"
  /** Only learners have tries of their own. */
  | "notLearner"
  | "ended"
  | "locked"
  | "roomFull"
  | "otherOrigin"
  | "tooLarge"
  | "tooMany"
  | "notFound"
  /** This browser is no member of the room, and came by no link. */
  | "notMember"
  /** What is asked is an instructor's to do. */
  | "notAllowed"
  | "wrongLink"
  | "linkExpired"
  | "linkRevoked"
  /** Nothing happened at the moment that is asked for. */
  | "unknownMoment"
  | "badArchive"
  | "unavailable";

/** Longest name of a participant, in characters. */
export const NAME_LENGTH = 40;
