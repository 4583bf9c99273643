import { writeTries } from "../../../shared/messages";
import type { Report } from "../../../shared/solve";
import { ENTRY, type StoredRoom } from "../../history";
import type { Peer } from "../../room/peer";
import type { Listener } from "../toldTry";
import type { LedgerRoom } from "../tryLedger";
import { type KeptStep, type StepEvent, stepsFrom, withStep, withStepEvent } from "./keptStep";
import { circuitKey, sourcesKey } from "./stepKeys";
import { toldLine, toldZeroing } from "./toldStep";

/** A room's steps with the help that was asked for: kept at once, and told once they are stored. */
export class StepLedger {
  readonly #room: LedgerRoom;
  #kept: readonly KeptStep[];
  /** The kept ones as far as they are stored. */
  #told: readonly KeptStep[];
  #report: Report | null | undefined;
  /** Keys of the newest circuits, by step and card, made as they are asked for. */
  #keys = new Map<string, string | null>();
  #lastTold = "";

  constructor(stored: StoredRoom, room: LedgerRoom) {
    this.#room = room;
    this.#kept = stepsFrom(stored);
    this.#told = this.#kept;
  }

  get kept(): readonly KeptStep[] {
    return this.#kept;
  }

  /** Takes in what happened, and stores it; once it is stored, everybody is told, and then `whenStored` called. */
  record(participant: string, made: KeptStep | StepEvent, whenStored: () => void): void {
    this.#kept = "did" in made ? withStepEvent(this.#kept, made) : withStep(this.#kept, made);
    const kept = this.#kept;
    this.#room.record(kindOf(made), participant, made, () => {
      this.#told = kept;
      this.#tellAll();
      whenStored();
    });
  }

  /** Compares the circuits that the steps were judged in with newer ones, and tells where that makes a difference. */
  follow(report: Report | null): void {
    this.#report = report;
    this.#keys = new Map();
    this.#tellAll();
  }

  /** Gives peers the steps. A room where nobody has made any has none to give. */
  tell(peers: Iterable<Peer>): void {
    if (this.#told.length === 0) return;
    const whole = writeTries(this.#message("instructor"));
    const cut = writeTries(this.#message("other"));
    for (const peer of peers) if (peer.wantsAnswers) peer.offer(this.#room.isInstructor(peer) ? whole : cut);
  }

  /** Before the room has been solved since it was loaded, nobody knows of another circuit. */
  isOutdated(step: KeptStep): boolean {
    return this.#report !== undefined && this.#keyNow(step) !== step.answer;
  }

  #keyNow({ step, card }: KeptStep): string | null {
    const place = JSON.stringify([step, card]);
    if (!this.#keys.has(place)) this.#keys.set(place, keyOf(this.#report ?? null, step, card));
    return this.#keys.get(place) ?? null;
  }

  #tellAll(): void {
    const message = JSON.stringify(this.#message("instructor"));
    if (this.#told.length === 0 || message === this.#lastTold) return;
    this.#lastTold = message;
    this.tell(this.#room.peers);
  }

  #message(to: Listener) {
    const all = this.#told.map((made) => ({ made, isOutdated: this.isOutdated(made) }));
    return {
      about: "steps",
      zeroings: all.flatMap(({ made, isOutdated }) =>
        made.step === "zeroing" ? toldZeroing(made, isOutdated, to) : [],
      ),
      lines: all.flatMap(({ made, isOutdated }) => (made.step === "line" ? toldLine(made, isOutdated, to) : [])),
    } as const;
  }
}

function keyOf(report: Report | null, step: KeptStep["step"], card: string): string | null {
  if (report === null) return null;
  // A card without its own circuit is gone, and with it what was zeroed for it.
  const ofCircuit = circuitKey(report, card);
  return step === "line" || ofCircuit === null ? ofCircuit : sourcesKey(report);
}

function kindOf(made: KeptStep | StepEvent): typeof ENTRY.try | typeof ENTRY.help | typeof ENTRY.reason {
  if (!("did" in made)) return ENTRY.try;
  return made.did === "giveStepRung" ? ENTRY.help : ENTRY.reason;
}
