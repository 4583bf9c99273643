import { type TryAction, type TryRefusal, type TryReply, tidyCard, writeTries } from "../../shared/messages";
import type { Report } from "../../shared/solve";
import type { StoredRoom } from "../history";
import { type Rate, RateLimit } from "../rateLimit";
import type { Peer } from "../room/peer";
import { answerOf } from "./answerOf";
import type { Checked, Checker, CheckJob } from "./checker";
import { isSameCard, type KeptTry, triesFrom, withTry } from "./keptTry";

/** What the desk needs of its room. */
export type DeskRoom = {
  readonly peers: Iterable<Peer>;
  readonly board: () => Pick<CheckJob, "key" | "board">;
  /** The participant's name, and why they may not try anything; null for a name where they are no member. */
  readonly asker: (participant: string) => { readonly name: string | null; readonly refusal: TryRefusal | null };
  /** Puts a try into the history. */
  readonly record: (participant: string, made: KeptTry, whenStored: () => void) => void;
};

export type DeskServices = {
  readonly checker: Checker;
  readonly rate: Rate;
  /** Milliseconds since 1970. */
  readonly now: () => number;
};

/** A room's tries: has them judged, keeps the newest of each card, and tells everybody of it once it is stored. */
export class TryDesk {
  readonly #room: DeskRoom;
  readonly #services: DeskServices;
  /** By participant, so that a new connection brings no new tries. */
  readonly #rates = new Map<string, RateLimit>();
  #kept: readonly KeptTry[];
  /** The kept ones as far as they are stored. */
  #told: readonly KeptTry[];
  #report: Report | null | undefined;
  #lastTold = "";
  #isDestroyed = false;

  constructor(stored: StoredRoom, room: DeskRoom, services: DeskServices) {
    this.#room = room;
    this.#services = services;
    this.#kept = triesFrom(stored);
    this.#told = this.#kept;
  }

  /** What a snapshot keeps. */
  get kept(): readonly KeptTry[] {
    return this.#kept;
  }

  /** Takes a try in. Whoever made it is sent what becomes of it, and everybody the newest tries where it could be read. */
  take(peer: Peer, id: number, action: TryAction): void {
    const { participant } = peer;
    const refusal = this.#room.asker(participant).refusal ?? (this.#report === null ? "noAnswer" : null);
    if (refusal !== null) this.#reply(peer, id, { outcome: "refused", why: refusal });
    else if (!this.#rateOf(participant).take(this.#services.now())) {
      this.#reply(peer, id, { outcome: "refused", why: "tooFast" });
    } else {
      const { wanted, card, text } = action;
      const job = { wanted, card, text, ...this.#room.board() };
      void this.#services.checker.check(job).then((checked) => this.#judged(peer, id, action, checked));
    }
  }

  /** Compares the answers that the tries were judged by with newer ones, and tells where that makes a difference. */
  follow(report: Report | null): void {
    this.#report = report;
    this.#tellAll();
  }

  /** Gives peers the newest tries. A room where nobody has tried anything has none to give. */
  tell(peers: Iterable<Peer>): void {
    if (this.#told.length === 0) return;
    const frame = writeTries(this.#message());
    for (const peer of peers) if (peer.wantsAnswers) peer.offer(frame);
  }

  /** Nothing that is still being judged is recorded any more. */
  destroy(): void {
    this.#isDestroyed = true;
  }

  #judged(peer: Peer, id: number, action: TryAction, checked: Checked): void {
    if (this.#isDestroyed) return;
    // While it was judged, they may have been removed, or the room may have ended.
    const { refusal } = this.#room.asker(peer.participant);
    if (refusal !== null) this.#reply(peer, id, { outcome: "refused", why: refusal });
    else if (checked.outcome === "refused") this.#reply(peer, id, checked);
    else if (checked.judgement.outcome === "unread") this.#reply(peer, id, checked.judgement);
    else this.#keep(peer, id, action, { judgement: checked.judgement, answer: checked.answer });
  }

  #keep(peer: Peer, id: number, action: TryAction, judged: Pick<KeptTry, "judgement" | "answer">): void {
    const { participant } = peer;
    const made: KeptTry = {
      wanted: action.wanted,
      card: tidyCard(action.card),
      text: action.text.trim(),
      participant,
      name: this.#room.asker(participant).name ?? "",
      time: this.#services.now(),
      count: 1 + (this.#kept.find((each) => isSameCard(each, action))?.count ?? 0),
      ...judged,
    };
    this.#kept = withTry(this.#kept, made);
    const kept = this.#kept;
    this.#room.record(participant, made, () => {
      this.#told = kept;
      this.#tellAll();
      this.#reply(peer, id, made.judgement);
    });
  }

  #tellAll(): void {
    const message = JSON.stringify(this.#message());
    if (message === this.#lastTold) return;
    this.#lastTold = message;
    this.tell(this.#room.peers);
  }

  #message() {
    const tries = this.#told.map(({ answer, ...made }) => ({ ...made, isOutdated: this.#isOutdated(made, answer) }));
    return { about: "room", tries } as const;
  }

  /** Before the room has been solved since it was loaded, nobody knows of another answer. */
  #isOutdated({ wanted, card }: Pick<KeptTry, "wanted" | "card">, answer: string): boolean {
    if (this.#report === undefined) return false;
    const now = answerOf(this.#report, wanted, card);
    return !now.ok || now.key !== answer;
  }

  #reply(peer: Peer, id: number, reply: TryReply): void {
    if (peer.wantsAnswers) peer.send(writeTries({ about: "request", id, reply }));
  }

  #rateOf(participant: string): RateLimit {
    const known = this.#rates.get(participant);
    if (known) return known;
    const limit = new RateLimit(this.#services.rate, this.#services.now());
    this.#rates.set(participant, limit);
    return limit;
  }
}
