import type { RoomVisit, TryProgress } from "../../shared/messages";
import type { RoomDirectory } from "../history";
import type { Log } from "../log";

/** What lists say of a room. A list that misses something is no reason to refuse anybody anything. */
export class Listing {
  readonly #room: string;
  readonly #services: { readonly directory: RoomDirectory; readonly log: Log };

  constructor(room: string, services: { readonly directory: RoomDirectory; readonly log: Log }) {
    this.#room = room;
    this.#services = services;
  }

  /** Keeps a participant's list of rooms; null takes the room off it. */
  noteVisit(participant: string, visit: Omit<RoomVisit, "room"> | null): void {
    this.#note("visit", this.#services.directory.noteVisit(participant, this.#room, visit));
  }

  /** Keeps the instructor's list of tries. */
  noteProgress(progress: TryProgress): void {
    this.#note("progress", this.#services.directory.noteProgress(this.#room, progress));
  }

  #note(what: string, noting: Promise<void>): void {
    noting.catch((error: unknown) => this.#services.log.warn(`no ${what} noted in room "${this.#room}"`, error));
  }
}
