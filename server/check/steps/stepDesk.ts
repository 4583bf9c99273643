import type { JudgingRules } from "../../../shared/check";
import { unreachable } from "../../../shared/circuit";
import {
  type Decisions,
  isMeantStep,
  isOfCard,
  type StepAction,
  type StepHelpAction,
  type TryLine,
  type TryRefusal,
  type TryReply,
  type TryZeroing,
  tidyCard,
} from "../../../shared/messages";
import type { Report } from "../../../shared/solve";
import type { StoredRoom } from "../../history";
import type { Peer } from "../../room/peer";
import type { Checker } from "../checker";
import { RUNGS } from "../rungs";
import type { DeskRoom } from "../tryDesk";
import { isWrong, type KeptLine, type KeptStep, type StepHelp } from "./keptStep";
import type { CheckedStep, StepJob, TermNames } from "./stepJob";
import { StepLedger } from "./stepLedger";
import { lineRungs, zeroingRungs } from "./stepWords";

/** What the desk is given by the one that takes in all that is tried. */
export type StepServices = {
  readonly checker: Checker;
  readonly now: () => number;
  readonly rules: () => JudgingRules;
  /** Takes one of the participant's tries, or of their requests for help, where one is left. */
  readonly takesTry: (peer: Peer) => boolean;
  readonly takesHelp: (peer: Peer) => boolean;
  readonly reply: (peer: Peer, id: number, reply: TryReply) => void;
};

/** A room's steps: zeroings and lines of people's own, which it has judged, with the help that is asked for. */
export class StepDesk {
  readonly #room: DeskRoom;
  readonly #services: StepServices;
  readonly #ledger: StepLedger;
  #isDestroyed = false;

  constructor(stored: StoredRoom, room: DeskRoom, services: StepServices) {
    this.#room = room;
    this.#services = services;
    this.#ledger = new StepLedger(stored, room);
  }

  /** What a snapshot keeps. */
  get kept(): readonly KeptStep[] {
    return this.#ledger.kept;
  }

  /** Takes in what is asked by somebody who may try. */
  take(peer: Peer, id: number, action: StepAction): void {
    switch (action.do) {
      case "tryZeroing":
      case "tryLine":
        if (action.do === "tryZeroing" && this.#room.trying().zeroing === "drawn") {
          this.#refuse(peer, id, "zeroingNotAsked");
        } else if (!this.#services.takesTry(peer)) this.#refuse(peer, id, "tooFast");
        else void this.#check(action).then((checked) => this.#checked(peer, id, action, checked));
        break;
      case "askStepHelp":
      case "giveStepReason":
        if (this.#services.takesHelp(peer)) this.#help(peer, id, action);
        else this.#refuse(peer, id, "helpTooFast");
        break;
      default:
        unreachable(action);
    }
  }

  /** What was made of the sources for a card, as it was checked last in the circuit as it is; null where nothing was. */
  zeroingAt(card: string): Decisions | null {
    const made = this.#ledger.kept.find((each) => each.step === "zeroing" && isOfCard(each, card));
    return made?.step === "zeroing" && !this.#ledger.isOutdated(made) ? made.decisions : null;
  }

  follow(report: Report | null): void {
    this.#ledger.follow(report);
  }

  tell(peers: Iterable<Peer>): void {
    this.#ledger.tell(peers);
  }

  destroy(): void {
    this.#isDestroyed = true;
  }

  /** How many lines wait to be handed in. */
  get entered(): number {
    return this.#entered().length;
  }

  /** Has the lines judged that wait. Resolves, once that is told, to why the first was not that could not be judged. */
  async judgeEntered(by: string): Promise<TryRefusal | null> {
    let why: TryRefusal | null = null;
    for (const { card, text, count } of this.#entered()) {
      const checked = await this.#check({ do: "tryLine", card, text });
      const refusal = this.#isDestroyed ? "busy" : this.#room.asker(by).refusal;
      if (refusal !== null) return refusal;
      const now = this.#entered().find((each) => isMeantStep(each, { step: "line", card, count }));
      if (now === undefined) continue;
      if (checked.outcome === "refused") why ??= checked.why;
      else if (checked.outcome === "line" && checked.judgement.outcome !== "unread") {
        const judged: KeptLine = { ...now, ...judgedLine(checked.judgement, checked.names), answer: checked.answer };
        await new Promise<void>((resolve) => this.#ledger.record(now.participant, judged, resolve));
      }
    }
    return why;
  }

  #entered(): readonly KeptLine[] {
    return this.#ledger.kept.filter(
      (each): each is KeptLine => each.step === "line" && each.judgement.outcome === "entered",
    );
  }

  #check(action: TryZeroing | TryLine): Promise<CheckedStep> {
    const board = this.#room.board();
    const job: StepJob =
      action.do === "tryZeroing"
        ? { step: "zeroing", card: action.card, decisions: action.decisions, ...board }
        : { step: "line", card: action.card, text: action.text, rules: this.#services.rules(), ...board };
    return this.#services.checker.checkStep(job);
  }

  #checked(peer: Peer, id: number, action: TryZeroing | TryLine, checked: CheckedStep): void {
    if (this.#isDestroyed) return;
    // While it was judged, they may have been removed, or the room may have ended.
    const { refusal, name } = this.#room.asker(peer.participant);
    if (refusal !== null) this.#refuse(peer, id, refusal);
    else if (checked.outcome === "refused") this.#services.reply(peer, id, checked);
    else if (checked.outcome === "line" && checked.judgement.outcome === "unread") {
      this.#services.reply(peer, id, checked.judgement);
    } else {
      const made = this.#made(action, checked, { participant: peer.participant, name: name ?? "" });
      this.#ledger.record(peer.participant, made, () => this.#services.reply(peer, id, { outcome: "done" }));
    }
  }

  #made(
    action: TryZeroing | TryLine,
    checked: Exclude<CheckedStep, { readonly outcome: "refused" }>,
    who: Pick<KeptStep, "participant" | "name">,
  ): KeptStep {
    const own = this.#ledger.kept.filter((each) => each.step === checked.outcome && isOfCard(each, action.card));
    const last = own.at(-1);
    const made = {
      card: tidyCard(action.card),
      ...who,
      time: this.#services.now(),
      count: (last?.count ?? 0) + 1,
      answer: checked.answer,
    };
    if (checked.outcome === "zeroing" && action.do === "tryZeroing") {
      const { judgement } = checked;
      const rungs = judgement.outcome === "wrong" ? zeroingRungs(judgement.faults) : null;
      const help = helpAfter(last?.help ?? null, rungs);
      const { decisions } = action;
      return { step: "zeroing", ...made, decisions, judgement: { outcome: judgement.outcome }, help };
    }
    if (checked.outcome !== "line" || action.do !== "tryLine" || checked.judgement.outcome === "unread") {
      throw new Error("a step was judged as one of another kind");
    }
    const isToWait = this.#room.trying().judging === "whenHandedIn";
    const said = isToWait
      ? { judgement: { outcome: "entered" } as const, help: null }
      : judgedLine(checked.judgement, checked.names);
    return { step: "line", ...made, text: action.text.trim(), ...said };
  }

  #help(peer: Peer, id: number, action: StepHelpAction): void {
    const kept = this.#ledger.kept.find((each) => isMeantStep(each, action));
    const done = () => this.#services.reply(peer, id, { outcome: "done" });
    if (kept === undefined) {
      this.#refuse(peer, id, "olderTry");
      return;
    }
    const { help, step, card, count } = kept;
    const { participant } = peer;
    const about = { step, card, count, participant, name: this.#room.asker(participant).name ?? "" };
    if (action.do === "giveStepReason") {
      if (help === null || help.given < RUNGS.length) this.#refuse(peer, id, "noHelp");
      else if (help.reason !== null) done();
      else this.#ledger.record(participant, { did: "giveStepReason", ...about, text: action.text }, done);
      return;
    }
    const rung = help?.rungs[help.given];
    if (this.#ledger.isOutdated(kept)) this.#refuse(peer, id, "outdated");
    else if (help !== null && help.given > action.given) done();
    else if (rung === undefined || !isWrong(kept)) this.#refuse(peer, id, "noHelp");
    else this.#ledger.record(participant, { did: "giveStepRung", ...about, ...rung }, done);
  }

  #refuse(peer: Peer, id: number, why: TryRefusal): void {
    this.#services.reply(peer, id, { outcome: "refused", why });
  }
}

function judgedLine(
  judgement: Exclude<KeptLine["judgement"], { readonly outcome: "entered" }>,
  names: TermNames,
): Pick<KeptLine, "judgement" | "help"> {
  const rungs = judgement.outcome === "false" ? lineRungs(judgement.diagnosis, names) : null;
  return { judgement, help: rungs && { rungs, given: 0, reason: null } };
}

/**
 * The help with a new zeroing. For the same mistake the rungs that were given stand; with the right one they stay to be
 * read, and a reason that is asked for can still be given.
 */
function helpAfter(before: StepHelp | null, rungs: StepHelp["rungs"] | null): StepHelp | null {
  const settled = before !== null && before.given > 0 ? before : null;
  if (rungs === null) return settled;
  const isSame = settled !== null && JSON.stringify(settled.rungs) === JSON.stringify(rungs);
  return isSame ? settled : { rungs, given: 0, reason: null };
}
