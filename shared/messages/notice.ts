/** Something about the room, or about what this page asked of it, that its people should know. */
export type Notice =
  /** Changes can't be stored: they are kept in the server's memory and not passed on until they are. */
  | { readonly code: "notStoring"; readonly reason: string }
  | { readonly code: "storingAgain" }
  /** Nothing of a change that this page sent was taken in: it has to load the room's board again. */
  | { readonly code: "changeRefused"; readonly why: ChangeRefusal }
  /** `id` is that of the request. */
  | { readonly code: "requestRefused"; readonly id: number; readonly why: RequestRefusal }
  /** This participant was removed; the connection is closed behind this. */
  | { readonly code: "removed" }
  | { readonly code: "ended" }
  /** The room is being deleted with all that happened in it; the connection is closed behind this. */
  | { readonly code: "deleted" };

export type ChangeRefusal = "notAllowed" | "locked" | "ended";

export type RequestRefusal =
  /** Only the instructor may. */
  | "notAllowed"
  | "ended"
  | "unknownParticipant"
  /** Instructors hold the link and can't be removed. */
  | "isInstructor"
  /** Observers only look: who wants to draw joins as a learner. */
  | "isObserver"
  /** The total's lines tell the addends, of which some are hidden. */
  | "addendsHidden"
  /** More cards than a room keeps. */
  | "tooMany"
  /** It is about the class, and this is somebody's own try. */
  | "inTry"
  /** Only whose try it is begins it again. */
  | "notOwner";
