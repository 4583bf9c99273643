import type { TryProgress } from "../../shared/messages";
import type { RoomDirectory } from "../history";
import type { Log } from "../log";
import type { People } from "./people";
import type { SharedDoc } from "./sharedDoc";

/** A room as lists have it. */
export type ListedAs = {
  readonly name: string;
  readonly people: People;
  readonly doc: SharedDoc;
  /** Somebody's own try is found in its room and not in their list of rooms. */
  readonly isTry: boolean;
};

export type ListingServices = { readonly directory: RoomDirectory; readonly log: Log; readonly now: () => number };

/** What lists say of a room. A list that misses something is no reason to refuse anybody anything. */
export class Listing {
  readonly #room: ListedAs;
  readonly #services: ListingServices;

  constructor(room: ListedAs, services: ListingServices) {
    this.#room = room;
    this.#services = services;
  }

  /** Keeps a participant's list of rooms; one who does not belong to the room any more has it there no longer. */
  noteVisit(participant: string): void {
    const { name, people, doc, isTry } = this.#room;
    if (isTry) return;
    const { directory, now } = this.#services;
    const you = people.you(participant);
    const visit = you && { title: doc.title, role: you.role, lastSeen: now() };
    this.#note("visit", directory.noteVisit(participant, name, visit));
  }

  /** Keeps the instructor's list of tries. */
  noteProgress(progress: TryProgress): void {
    this.#note("progress", this.#services.directory.noteProgress(this.#room.name, progress));
  }

  #note(what: string, noting: Promise<void>): void {
    noting.catch((error: unknown) => this.#services.log.warn(`no ${what} noted in room "${this.#room.name}"`, error));
  }
}
