import { unreachable } from "../../shared/circuit";
import { isSameCard, type TriesMessage, type TryPlace, withTry } from "../../shared/messages";
import { ENTRY, type EntryKind, type StoredRoom } from "../history";
import { isTryOutdated } from "./answerOf";
import type { HelpEvent } from "./keptHelp";
import { type KeptTry, triesFrom, withHelp } from "./keptTry";
import { Ledger, type LedgerRoom } from "./ledger";
import { type Listener, timesOf, toldTry } from "./toldTry";

/** A room's newest try of each card, with the help that was asked for. */
export class TryLedger extends Ledger<KeptTry, HelpEvent> {
  constructor(stored: StoredRoom, room: LedgerRoom) {
    super(room, triesFrom(stored));
  }

  /** Whether it is known that the board has nothing to compare with. */
  get hasNoAnswer(): boolean {
    return this.report === null;
  }

  /** The newest try at a card. */
  at(place: TryPlace): KeptTry | undefined {
    return this.kept.find((each) => isSameCard(each, place));
  }

  /** Before the room has been solved since it was loaded, nobody knows of another answer. */
  isOutdated(kept: KeptTry): boolean {
    return this.report !== undefined && isTryOutdated(this.report, kept);
  }

  protected after(made: KeptTry | HelpEvent): readonly KeptTry[] {
    return "did" in made ? withHelp(this.kept, made) : withTry(this.kept, made);
  }

  protected kindOf(made: KeptTry | HelpEvent): EntryKind {
    if (!("did" in made)) return ENTRY.try;
    switch (made.did) {
      case "giveRung":
        return ENTRY.help;
      case "putQuestion":
      case "answerQuestion":
        return ENTRY.question;
      case "giveReason":
        return ENTRY.reason;
      default:
        return unreachable(made);
    }
  }

  protected message(to: Listener): TriesMessage {
    const told = (made: KeptTry) =>
      toldTry(made, { isOutdated: this.isOutdated(made), timeAt: timesOf(this.told, made) }, to);
    return { about: "room", tries: this.told.map(told) };
  }
}
