import type { HistoryStore, RoomDirectory } from "../history";
import type { Limits } from "../limits";
import type { Log } from "../log";
import { EntryRefused, type RoomRegistry } from "../room";

export type RemovalServices = {
  readonly registry: RoomRegistry;
  readonly directory: RoomDirectory;
  readonly store: HistoryStore;
  readonly limits: Pick<Limits, "storePatience" | "retentionInterval">;
  readonly log: Log;
  readonly now: () => number;
  /** Called when a room is gone, for what else is kept of it in memory. */
  readonly onRemoved: (room: string) => void;
};

/** Deletes rooms for good: when an instructor says so, and when the time that they are kept for is over. */
export class Removal {
  readonly #services: RemovalServices;
  readonly #timer: NodeJS.Timeout;
  #applying: Promise<void> | null = null;

  constructor(services: RemovalServices) {
    this.#services = services;
    this.#timer = setInterval(() => void this.applyRetention(), services.limits.retentionInterval).unref();
    this.#applying = this.#takeUnfinished().finally(() => {
      this.#applying = null;
    });
    void this.#applying.then(() => this.applyRetention());
  }

  /**
   * Deletes a room with the tries of its problem and all that happened in them. Rejects where it can't be done now, and then
   * it is still there.
   */
  async remove(room: string): Promise<void> {
    const { registry, store, directory, limits, onRemoved } = this.#services;
    const gone: string[] = [];
    await registry.remove(room, limits.storePatience, async () => {
      gone.push(...(await directory.tries(room)).map((each) => each.room), room);
      for (const each of gone) {
        await store.erase(each);
        await directory.remove(each);
      }
    });
    for (const each of gone) onRemoved(each);
  }

  /** Deletes the rooms whose time has come. What can't be deleted now is tried again the next time. */
  async applyRetention(): Promise<void> {
    this.#applying ??= this.#apply().finally(() => {
      this.#applying = null;
    });
    await this.#applying;
  }

  /** Begins nothing any more, and waits for what is under way. */
  async stop(): Promise<void> {
    clearInterval(this.#timer);
    await this.#applying;
  }

  /** Deletes what imports left behind that were cut off: nothing is imported yet. */
  async #takeUnfinished(): Promise<void> {
    const { directory, log } = this.#services;
    try {
      for (const room of await directory.unfinished()) await this.remove(room);
    } catch (error) {
      log.warn("what a session's import left behind could not be deleted", error);
    }
  }

  async #apply(): Promise<void> {
    const { directory, log, now } = this.#services;
    try {
      for (const room of await directory.overdue(now())) await this.#removeOverdue(room);
    } catch (error) {
      log.warn("rooms that are kept no longer could not be looked for", error);
    }
  }

  async #removeOverdue(room: string): Promise<void> {
    try {
      await this.remove(room);
    } catch (error) {
      if (error instanceof EntryRefused) return;
      this.#services.log.warn(`room "${room}" is kept no longer, but could not be deleted`, error);
    }
  }
}
