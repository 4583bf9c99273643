import type { Notice } from "../../shared/messages";
import { CLOSE, type CloseCode } from "../sync/closeCode";
import type { Peer } from "./peer";
import { Room, type RoomServices } from "./room";

/** Nobody can enter for the reason that the message gives. */
export class EntryRefused extends Error {}

/** How long, in ms, a deleted room's name is refused besides. */
const REMOVAL_TAIL = 5000;

/** The rooms in memory. A room is loaded when somebody enters it, once however many enter, and leaves when it is idle. */
export class RoomRegistry {
  readonly #services: RoomServices;
  readonly #rooms = new Map<string, Room>();
  /** Rooms that are being deleted, or were a moment ago. */
  readonly #removing = new Set<string>();
  readonly #loading = new Map<string, Promise<Room>>();
  /** Timers of empty rooms, longest empty first. Only these may leave; a room just loaded has none until it was left. */
  readonly #idle = new Map<string, NodeJS.Timeout>();

  constructor(services: RoomServices) {
    this.#services = services;
  }

  /** How many rooms are in memory. */
  get size(): number {
    return this.#rooms.size;
  }

  /** The room of this name where it is in memory. */
  loaded(name: string): Room | null {
    return this.#rooms.get(name) ?? null;
  }

  /** The room of this name where there is one, loaded, as {@link open} gives it; null otherwise. */
  async find(name: string): Promise<Room | null> {
    const isThere = this.#rooms.has(name) || (await this.#services.directory.find(name)) !== null;
    return isThere ? this.open(name) : null;
  }

  /**
   * A room, loaded; one that nobody enters leaves when it is idle. Rejects with {@link EntryRefused} where there is no
   * space for it, or with the store's error where it can't be loaded.
   */
  async open(name: string): Promise<Room> {
    if (this.#removing.has(name)) throw new EntryRefused("the room is being deleted");
    const room = this.#rooms.get(name) ?? (await (this.#loading.get(name) ?? this.#load(name)));
    if (room.size === 0) this.#idleSoon(room);
    return room;
  }

  /**
   * Joins the peer to a room that is loaded. Where its participant has too many connections there, the oldest goes: it
   * may be one that nobody has noticed to be dead. Throws {@link EntryRefused} where the room is full.
   */
  enter(room: Room, peer: Peer): void {
    const { connectionsInRoom, connectionsOfOne } = this.#services.limits;
    const [oldest, ...others] = room.peersOf(peer.participant);
    if (oldest && others.length + 1 >= connectionsOfOne) {
      oldest.close(CLOSE.tooMany, `a participant has ${connectionsOfOne} connections to a room at most`);
      this.leave(room, oldest);
    }
    if (room.size >= connectionsInRoom) throw new EntryRefused(`a room holds ${connectionsInRoom} connections`);
    this.#stayAwake(room.name);
    room.join(peer);
  }

  leave(room: Room, peer: Peer): void {
    room.leave(peer);
    // A deleted room's people leave one by one behind it.
    if (room.size === 0 && this.#rooms.get(room.name) === room) this.#idleSoon(room);
  }

  /**
   * Deletes a room, and the tries of its problem with it: once all of it is stored, everybody is told and sent away, nobody
   * comes in any more, and `erase` is called. Rejects with {@link EntryRefused}, and leaves the room as it is, where it isn't
   * stored within `patience` ms; where `erase` rejects, the room can be entered again.
   */
  async remove(name: string, patience: number, erase: () => Promise<void>): Promise<void> {
    if (this.#removing.has(name)) throw new EntryRefused("the room is being deleted");
    await this.#loading.get(name);
    await this.#allStored(name, patience);
    const rooms = this.#withTries(name);
    const names = new Set([name, ...rooms.map((room) => room.name)]);
    for (const each of names) this.#removing.add(each);
    try {
      for (const room of rooms) this.#close(room);
      await erase();
    } finally {
      // Somebody who found the room a moment ago may still be on their way in.
      const forget = () => {
        for (const each of names) this.#removing.delete(each);
      };
      setTimeout(forget, REMOVAL_TAIL).unref();
    }
  }

  async #allStored(name: string, patience: number): Promise<void> {
    let isLate = false;
    const late = new Promise<void>((resolve) => setTimeout(resolve, patience).unref()).then(() => {
      isLate = true;
    });
    const unstored = () => this.#withTries(name).filter((room) => !room.isStored);
    // While people draw there is always something more.
    while (unstored().length > 0 && !isLate) {
      await Promise.race([Promise.all(unstored().map((room) => room.stored())), late]);
    }
    if (unstored().length > 0) throw new EntryRefused("changes of this room are not stored yet");
  }

  /** A room and the tries of its problem, as far as they are in memory; the tries first, since they lean on it. */
  #withTries(name: string): readonly Room[] {
    const tries = [...this.#rooms.values()].filter((room) => room.tryOf === name);
    const room = this.#rooms.get(name);
    return room ? [...tries, room] : tries;
  }

  #close(room: Room): void {
    room.close();
    this.#stayAwake(room.name);
    this.#rooms.delete(room.name);
    room.destroy();
  }

  notify(notice: Notice): void {
    for (const room of this.#rooms.values()) room.notify(notice);
  }

  closePeers(code: CloseCode, reason: string): void {
    for (const room of this.#rooms.values()) room.closePeers(code, reason);
  }

  /** Drops all rooms from memory. What they recorded is the recorder's to store. */
  close(): void {
    for (const timer of this.#idle.values()) clearTimeout(timer);
    this.#idle.clear();
    for (const room of this.#rooms.values()) room.destroy();
    this.#rooms.clear();
  }

  async #load(name: string): Promise<Room> {
    this.#makeSpace();
    const loading = this.#read(name);
    this.#loading.set(name, loading);
    try {
      return await loading;
    } finally {
      this.#loading.delete(name);
    }
  }

  async #read(name: string): Promise<Room> {
    const { store, directory } = this.#services;
    const [stored, listed] = await Promise.all([store.load(name), directory.find(name)]);
    if (!listed) throw new EntryRefused("the room is not there any more");
    if (!listed.tryOf) return this.#take(new Room(name, stored, this.#services));
    const { room, owner } = listed.tryOf;
    for (;;) {
      const tried = await this.open(room);
      // It stays in memory as long as the try, if it has not left it since it was opened.
      if (this.#rooms.get(room) === tried)
        return this.#take(new Room(name, stored, this.#services, { room: tried.tried, owner }));
    }
  }

  #take(room: Room): Room {
    this.#rooms.set(room.name, room);
    return room;
  }

  #makeSpace(): void {
    const { rooms } = this.#services.limits;
    if (this.#rooms.size + this.#loading.size < rooms) return;
    const freed = [...this.#idle.keys()].some((name) => this.#unload(name));
    if (!freed) throw new EntryRefused(`all ${rooms} rooms of this server are in use`);
  }

  #idleSoon(room: Room): void {
    this.#stayAwake(room.name);
    const unload = () => {
      // What isn't stored yet keeps the room; it is asked again after another idle time.
      if (!this.#unload(room.name) && room.size === 0) this.#idleSoon(room);
    };
    this.#idle.set(room.name, setTimeout(unload, this.#services.limits.idleTime).unref());
  }

  #stayAwake(name: string): void {
    clearTimeout(this.#idle.get(name));
    this.#idle.delete(name);
  }

  /** Drops a room that is empty and stored, and says whether it did. */
  #unload(name: string): boolean {
    const room = this.#rooms.get(name);
    if (!room || room.size > 0 || room.tried.followers.size > 0 || !room.isStored) return false;
    this.#stayAwake(name);
    this.#rooms.delete(name);
    room.destroy();
    return true;
  }
}
