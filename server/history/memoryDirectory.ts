import type { RoomVisit, TryProgress } from "../../shared/messages";
import type { ReplayLink, Retention } from "../../shared/replay";
import { DAY, type ListedRoom, type ListedTry, type RoomDirectory, UNFINISHED } from "./roomDirectory";

/** A directory that lives as long as the object: for tests. */
export class MemoryDirectory implements RoomDirectory {
  readonly #keys = new Map<string, string | null>();
  readonly #retentions = new Map<string, Retention>();
  readonly #links: { readonly room: string; readonly hash: string; link: ReplayLink }[] = [];
  readonly #tries = new Map<string, ListedTry & { readonly of: string }>();
  readonly #visits = new Map<string, Map<string, RoomVisit>>();

  async create(room: string, keyHash: string | null): Promise<boolean> {
    if (this.#keys.has(room) || this.#tries.has(room)) return false;
    this.#keys.set(room, keyHash);
    return true;
  }

  async find(room: string): Promise<ListedRoom | null> {
    const tried = this.#tries.get(room);
    if (tried) return { room, keyHash: null, tryOf: { room: tried.of, owner: tried.owner } };
    const keyHash = this.#keys.get(room);
    return keyHash === undefined ? null : { room, keyHash, tryOf: null };
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

  async remove(room: string): Promise<void> {
    this.#keys.delete(room);
    this.#tries.delete(room);
    for (const each of [...this.#tries.values()]) if (each.of === room) await this.remove(each.room);
    this.#retentions.delete(room);
    for (const visits of this.#visits.values()) visits.delete(room);
    this.#links.splice(0, this.#links.length, ...this.#links.filter((each) => each.room !== room));
  }

  async unfinished(): Promise<readonly string[]> {
    return [...this.#keys].flatMap(([room, keyHash]) => (keyHash === UNFINISHED ? [room] : []));
  }

  async retention(room: string): Promise<Retention> {
    return this.#retentions.get(room) ?? { keep: "forever" };
  }

  async setRetention(room: string, retention: Retention): Promise<void> {
    if (this.#keys.has(room)) this.#retentions.set(room, retention);
  }

  /** This directory knows nothing of rooms' entries: the days of a room begin when it was last visited. */
  async overdue(now: number): Promise<readonly string[]> {
    const lastSeen = (room: string) =>
      Math.max(0, ...[...this.#visits.values()].map((visits) => visits.get(room)?.lastSeen ?? 0));
    return [...this.#retentions].flatMap(([room, retention]) => {
      if (retention.keep === "until") return retention.until <= now ? [room] : [];
      return retention.keep === "days" && lastSeen(room) + retention.days * DAY <= now ? [room] : [];
    });
  }

  async addLink(room: string, hash: string, madeAt: number, until: number | null): Promise<ReplayLink> {
    const link = { id: this.#links.length + 1, madeAt, until, isRevoked: false };
    this.#links.push({ room, hash, link });
    return link;
  }

  async links(room: string): Promise<readonly ReplayLink[]> {
    const own = this.#links.filter((each) => each.room === room);
    return own.map(({ link }) => link).sort((a, b) => b.id - a.id);
  }

  async findLink(room: string, hash: string): Promise<ReplayLink | null> {
    return this.#links.find((each) => each.room === room && each.hash === hash)?.link ?? null;
  }

  async revokeLink(room: string, id: number): Promise<boolean> {
    const found = this.#links.find((each) => each.room === room && each.link.id === id);
    if (found) found.link = { ...found.link, isRevoked: true };
    return found !== undefined;
  }

  async createTry(name: string, room: string, owner: string): Promise<void> {
    if (!this.#keys.has(room)) throw new Error(`there is no room "${room}"`);
    if (this.#keys.has(name) || this.#tries.has(name) || this.#try(room, owner)) return;
    this.#tries.set(name, { room: name, of: room, owner, progress: null });
  }

  async findTry(room: string, owner: string): Promise<string | null> {
    return this.#try(room, owner)?.room ?? null;
  }

  async tries(room: string): Promise<readonly ListedTry[]> {
    const tries = [...this.#tries.values()].filter((each) => each.of === room);
    return tries.map(({ of: _, ...listed }) => listed);
  }

  async noteProgress(room: string, progress: TryProgress): Promise<void> {
    const tried = this.#tries.get(room);
    if (tried) this.#tries.set(room, { ...tried, progress });
  }

  #try(room: string, owner: string): ListedTry | undefined {
    return [...this.#tries.values()].find((each) => each.of === room && each.owner === owner);
  }
}
