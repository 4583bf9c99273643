import { type TriesMessage, withStep } from "../../../shared/messages";
import type { Report } from "../../../shared/solve";
import { ENTRY, type EntryKind, type StoredRoom } from "../../history";
import { Ledger, type LedgerRoom } from "../ledger";
import type { Listener } from "../toldTry";
import { type KeptStep, type StepEvent, stepsFrom, withStepEvent } from "./keptStep";
import { StepKeys } from "./stepKeys";
import { toldLine, toldZeroing } from "./toldStep";

/** A room's steps, with the help that was asked for. */
export class StepLedger extends Ledger<KeptStep, StepEvent> {
  #keys: StepKeys | null = null;

  constructor(stored: StoredRoom, room: LedgerRoom) {
    super(room, stepsFrom(stored));
  }

  override follow(report: Report | null): void {
    this.#keys = new StepKeys(report);
    super.follow(report);
  }

  /** Before the room has been solved since it was loaded, nobody knows of another circuit. */
  isOutdated(step: KeptStep): boolean {
    return this.#keys?.isOutdated(step) ?? false;
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
}
