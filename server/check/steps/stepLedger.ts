import type { TriesMessage } from "../../../shared/messages";
import type { Report } from "../../../shared/solve";
import { ENTRY, type EntryKind, type StoredRoom } from "../../history";
import { Ledger, type LedgerRoom } from "../ledger";
import type { Listener } from "../toldTry";
import { type KeptStep, type StepEvent, stepsFrom, withStep, withStepEvent } from "./keptStep";
import { circuitKey, sourcesKey } from "./stepKeys";
import { toldLine, toldZeroing } from "./toldStep";

/** A room's steps, with the help that was asked for. */
export class StepLedger extends Ledger<KeptStep, StepEvent> {
  /** Keys of the newest circuits, by step and card, made as they are asked for. */
  #keys = new Map<string, string | null>();

  constructor(stored: StoredRoom, room: LedgerRoom) {
    super(room, stepsFrom(stored));
  }

  override follow(report: Report | null): void {
    this.#keys = new Map();
    super.follow(report);
  }

  /** Before the room has been solved since it was loaded, nobody knows of another circuit. */
  isOutdated(step: KeptStep): boolean {
    return this.report !== undefined && this.#keyNow(step) !== step.answer;
  }

  protected after(made: KeptStep | StepEvent): readonly KeptStep[] {
    return "did" in made ? withStepEvent(this.kept, made) : withStep(this.kept, made);
  }

  protected kindOf(made: KeptStep | StepEvent): EntryKind {
    if (!("did" in made)) return ENTRY.try;
    return made.did === "giveStepRung" ? ENTRY.help : ENTRY.reason;
  }

  protected message(to: Listener): TriesMessage {
    const all = this.told.map((made) => ({ made, isOutdated: this.isOutdated(made) }));
    return {
      about: "steps",
      zeroings: all.flatMap(({ made, isOutdated }) =>
        made.step === "zeroing" ? toldZeroing(made, isOutdated, to) : [],
      ),
      lines: all.flatMap(({ made, isOutdated }) => (made.step === "line" ? toldLine(made, isOutdated, to) : [])),
    };
  }

  #keyNow({ step, card }: KeptStep): string | null {
    const place = JSON.stringify([step, card]);
    if (!this.#keys.has(place)) this.#keys.set(place, keyOf(this.report ?? null, step, card));
    return this.#keys.get(place) ?? null;
  }
}

function keyOf(report: Report | null, step: KeptStep["step"], card: string): string | null {
  if (report === null) return null;
  // A card without its own circuit is gone, and with it what was zeroed for it.
  const ofCircuit = circuitKey(report, card);
  return step === "line" || ofCircuit === null ? ofCircuit : sourcesKey(report);
}
