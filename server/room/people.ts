import {
  type ChangeRefusal,
  isShown,
  type LineCount,
  type Role,
  type RoomState,
  type You,
} from "../../shared/messages";
import {
  type AccessChange,
  changed,
  drawingRefusal,
  findMember,
  isDrawer,
  linesOfBoth,
  type Member,
  type RoomAccess,
  tryAccess,
} from "../access";
import type { Peer } from "./peer";

/** Where these are the people of somebody's own try: the room whose problem it is, and whose it is. */
export type TriedPeople = { readonly room: { readonly name: string; readonly people: People }; readonly owner: string };

/**
 * A room's people: who is connected, and who may do what. What is enforced is the newest access; what is told is the
 * access as far as it is stored, so that nobody hears of a setting that the death of the server could take back. In
 * somebody's own try, who belongs to it and what they are is what the room has them down for now.
 */
export class People {
  readonly #peers = new Set<Peer>();
  #access: RoomAccess;
  #told: RoomAccess;
  readonly #tried: TriedPeople | null;

  constructor(access: RoomAccess, tried: TriedPeople | null = null) {
    this.#access = access;
    this.#told = access;
    this.#tried = tried;
  }

  get access(): RoomAccess {
    const tried = this.#tried;
    return tried ? tryAccess(this.#access, tried.room.people.access, tried.owner) : this.#access;
  }

  /** What the room's own history says of its access. */
  get own(): RoomAccess {
    return this.#access;
  }

  get told(): RoomAccess {
    const tried = this.#tried;
    return tried ? tryAccess(this.#told, tried.room.people.told, tried.owner) : this.#told;
  }

  get size(): number {
    return this.#peers.size;
  }

  /** Whether any of their pages asked for answers. */
  get areLooking(): boolean {
    return [...this.#peers].some((peer) => peer.wantsAnswers);
  }

  [Symbol.iterator](): IterableIterator<Peer> {
    return this.#peers.values();
  }

  /** Takes a connection in, and says whether it is the first of its participant. */
  enter(peer: Peer): boolean {
    const isFirst = !this.#isHere(peer.participant);
    this.#peers.add(peer);
    return isFirst;
  }

  /** Lets a connection go, and says whether it was the last of its participant. */
  leave(peer: Peer): boolean {
    return this.#peers.delete(peer) && !this.#isHere(peer.participant);
  }

  peersOf(participant: string): Peer[] {
    return [...this.#peers].filter((peer) => peer.participant === participant);
  }

  /** Those whose answers and workings a change makes others. */
  affectedBy(change: AccessChange): { readonly answers: Iterable<Peer>; readonly workings: Iterable<Peer> } {
    switch (change.do) {
      case "setShown":
      case "setAnswers":
        return { answers: this.#peers, workings: this.#peers };
      case "showLines":
        return { answers: change.reveals.length > 0 ? this.#peers : [], workings: this.#peers };
      case "showAllLines":
        return { answers: change.shown ? this.#peers : [], workings: this.#peers };
      case "admit": {
        const peers = this.peersOf(change.participant);
        return { answers: peers, workings: peers };
      }
      default:
        return { answers: [], workings: [] };
    }
  }

  /** Takes a change in, which counts from now on. What it makes of the own access is to be told once it is stored. */
  change(change: AccessChange): RoomAccess {
    this.#access = changed(this.#access, change);
    return this.#access;
  }

  tell(access: RoomAccess): void {
    this.#told = access;
  }

  you(participant: string): You | null {
    const member = findMember(this.access, participant);
    return member && !member.isRemoved ? { id: member.id, name: member.name, role: member.role } : null;
  }

  isRemoved(participant: string): boolean {
    return findMember(this.access, participant)?.isRemoved === true;
  }

  roleOf(participant: string): Role {
    return findMember(this.access, participant)?.role ?? "observer";
  }

  isInstructor(peer: Peer): boolean {
    return this.roleOf(peer.participant) === "instructor";
  }

  drawingRefusal(peer: Peer): ChangeRefusal | null {
    return drawingRefusal(this.access, peer.participant);
  }

  /** Whether those who don't instruct may be sent a card's answers: hiding counts at once, showing once it is stored. */
  isShown(card: string): boolean {
    return isShown(this.access.answers, card) && isShown(this.told.answers, card);
  }

  /** How many lines of a card those who don't instruct may be sent, in the same way. */
  linesOf(wanted: string, card: string): LineCount {
    return linesOfBoth(this.access.lines, this.told.lines, wanted, card);
  }

  /** What a peer is told of the room; null for somebody whose admission isn't stored. */
  roomState(peer: Peer): RoomState | null {
    const access = this.told;
    const you = findMember(access, peer.participant);
    if (!you) return null;
    const { drawing, answers, lines, trying, isLocked, isEnded } = access;
    const mayDraw = drawingRefusal(access, you.id) === null;
    return {
      you: { id: you.id, name: you.name, role: you.role, mayDraw, isNameKept: you.isNameKept },
      participants: this.#participants(access),
      drawing,
      answers,
      lines,
      trying,
      isLocked,
      isEnded,
      tryOf: this.#tryOf(),
    };
  }

  #tryOf(): RoomState["tryOf"] {
    if (!this.#tried) return null;
    const { room, owner } = this.#tried;
    return { room: room.name, owner, ownerName: findMember(room.people.told, owner)?.name ?? "" };
  }

  #participants(access: RoomAccess): RoomState["participants"] {
    const here = new Set([...this.#peers].map(({ participant }) => participant));
    const participant = (member: Member) => ({
      id: member.id,
      name: member.name,
      role: member.role,
      isHere: here.has(member.id),
      mayDraw: isDrawer(access, member),
    });
    return access.members.filter(({ isRemoved }) => !isRemoved).map(participant);
  }

  #isHere(participant: string): boolean {
    return [...this.#peers].some((peer) => peer.participant === participant);
  }
}
