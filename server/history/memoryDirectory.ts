import type { RoomVisit } from "../../shared/messages";
import type { ListedRoom, RoomDirectory } from "./roomDirectory";

/** A directory that lives as long as the object: for tests. */
export class MemoryDirectory implements RoomDirectory {
  readonly #keys = new Map<string, string | null>();
  readonly #visits = new Map<string, Map<string, RoomVisit>>();

  async create(room: string, keyHash: string | null): Promise<boolean> {
    if (this.#keys.has(room)) return false;
    this.#keys.set(room, keyHash);
    return true;
  }

  async find(room: string): Promise<ListedRoom | null> {
    const keyHash = this.#keys.get(room);
    return keyHash === undefined ? null : { room, keyHash };
  }

  async setKey(room: string, keyHash: string): Promise<void> {
    if (this.#keys.has(room)) this.#keys.set(room, keyHash);
  }

  async keyless(): Promise<readonly string[]> {
    return [...this.#keys].flatMap(([room, keyHash]) => (keyHash === null ? [room] : []));
  }

  async noteVisit(participant: string, room: string, visit: Omit<RoomVisit, "room"> | null): Promise<void> {
    const visits = this.#visits.get(participant) ?? new Map<string, RoomVisit>();
    this.#visits.set(participant, visits);
    if (visit) visits.set(room, { room, ...visit });
    else visits.delete(room);
  }

  async visits(participant: string, limit: number): Promise<readonly RoomVisit[]> {
    const visits = [...(this.#visits.get(participant)?.values() ?? [])];
    return visits.sort((a, b) => b.lastSeen - a.lastSeen).slice(0, limit);
  }
}
