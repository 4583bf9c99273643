import type { JudgingRules } from "../../shared/check";
import {
  type HandIn,
  type HelpAction,
  isStepAction,
  TOTAL_CARD,
  type TryAction,
  type Trying,
  type TryRefusal,
  type TryReply,
  type TryValue,
  tidyCard,
  writeTries,
} from "../../shared/messages";
import type { Report } from "../../shared/solve";
import type { StoredRoom } from "../history";
import type { RateLimits } from "../rateLimit";
import type { Peer } from "../room/peer";
import type { Checked, Checker, CheckJob } from "./checker";
import { decideHelp } from "./decideHelp";
import { helpAfter, helpWith } from "./keptHelp";
import type { KeptTry } from "./keptTry";
import type { LedgerRoom } from "./ledger";
import type { KeptStep } from "./steps/keptStep";
import { StepDesk } from "./steps/stepDesk";
import { toldJudgement } from "./toldTry";
import { TryLedger } from "./tryLedger";

/** What the desk needs of its room. */
export type DeskRoom = LedgerRoom & {
  readonly board: () => Pick<CheckJob, "key" | "board">;
  /** The participant's name, and why they may not try anything; null for a name where they are no member. */
  readonly asker: (participant: string) => { readonly name: string | null; readonly refusal: TryRefusal | null };
  readonly trying: () => Trying;
};

export type DeskServices = {
  readonly checker: Checker;
  /** Rates by participant, so that a new connection brings no new tries. */
  readonly rates: RateLimits;
  readonly helpRates: RateLimits;
  /** Milliseconds since 1970. */
  readonly now: () => number;
};

type Check = Checked & { readonly outcome: "judged" };
type Judged = Exclude<Check["judgement"], { readonly outcome: "unread" }>;

/** A room's tries: has them judged, gives the help that is asked for, and replies to whoever asks. */
export class TryDesk {
  readonly #room: DeskRoom;
  readonly #services: DeskServices;
  readonly #ledger: TryLedger;
  readonly #steps: StepDesk;
  #isDestroyed = false;

  constructor(stored: StoredRoom, room: DeskRoom, services: DeskServices) {
    this.#room = room;
    this.#services = services;
    this.#ledger = new TryLedger(stored, room);
    this.#steps = new StepDesk(stored, room, {
      ...services,
      rules: () => rulesOf(room.trying()),
      takesTry: (peer) => this.#takesOf(services.rates, peer),
      takesHelp: (peer) => this.#takesOf(services.helpRates, peer),
      reply: (peer, id, reply) => this.#reply(peer, id, reply),
    });
  }

  /** What a snapshot keeps. */
  get kept(): readonly KeptTry[] {
    return this.#ledger.kept;
  }

  /** What everybody has been told. */
  get told(): readonly KeptTry[] {
    return this.#ledger.told;
  }

  get keptSteps(): readonly KeptStep[] {
    return this.#steps.kept;
  }

  /** Takes in what is asked about tries. Whoever asks is sent what becomes of it, and everybody the newest tries. */
  take(peer: Peer, id: number, action: TryAction): void {
    const { refusal } = this.#room.asker(peer.participant);
    if (refusal !== null) this.#refuse(peer, id, refusal);
    else if (action.do === "tryValue") this.#tryValue(peer, id, action);
    else if (isStepAction(action)) this.#steps.take(peer, id, action);
    else if (action.do === "handIn") void this.#handIn(peer, id, action);
    else this.#help(peer, id, action);
  }

  /** Takes in newer answers, by which older tries may be outdated. */
  follow(report: Report | null): void {
    this.#ledger.follow(report);
    this.#steps.follow(report);
  }

  /** Gives peers the newest tries. */
  tell(peers: Iterable<Peer>): void {
    this.#ledger.tell(peers);
    this.#steps.tell(peers);
  }

  /** Nothing that is still being judged is recorded any more. */
  destroy(): void {
    this.#isDestroyed = true;
    this.#steps.destroy();
  }

  #tryValue(peer: Peer, id: number, action: TryValue): void {
    if (this.#ledger.hasNoAnswer) this.#refuse(peer, id, "noAnswer");
    else if (!this.#takesOf(this.#services.rates, peer)) this.#refuse(peer, id, "tooFast");
    else {
      void this.#check(action).then((checked) => this.#judged(peer, id, action, checked));
    }
  }

  #check({ wanted, card, text }: Pick<KeptTry, "wanted" | "card" | "text">): Promise<Checked> {
    const rules = rulesOf(this.#room.trying());
    const earlier = this.#earlier(wanted, card).map((each) => ({ card: each.card, text: each.text }));
    const zeroing = this.#steps.zeroingAt(card);
    return this.#services.checker.check({ wanted, card, text, rules, earlier, zeroing, ...this.#room.board() });
  }

  /** The newest values at the other cards of a quantity, as far as they were judged by the board as it is. */
  #earlier(wanted: string, card: string): readonly KeptTry[] {
    return this.#ledger.kept.filter((each) => {
      const isJudged = each.judgement.outcome === "right" || each.judgement.outcome === "wrong";
      const isOther = each.wanted === wanted && tidyCard(each.card) !== tidyCard(card);
      return isOther && isJudged && !this.#ledger.isOutdated(each);
    });
  }

  #judged(peer: Peer, id: number, action: TryValue, checked: Checked): void {
    if (this.#isDestroyed) return;
    // While it was judged, they may have been removed, or the room may have ended.
    const { refusal } = this.#room.asker(peer.participant);
    if (refusal !== null) this.#refuse(peer, id, refusal);
    else if (checked.outcome === "refused") this.#reply(peer, id, checked);
    else this.#keep(peer, id, action, checked);
  }

  #keep(peer: Peer, id: number, action: TryValue, checked: Check): void {
    const { participant } = peer;
    const { judgement } = checked;
    if (judgement.outcome === "unread") {
      this.#reply(peer, id, judgement);
      return;
    }
    const before = this.#ledger.at(action);
    const made: KeptTry = {
      wanted: action.wanted,
      card: tidyCard(action.card),
      text: action.text.trim(),
      participant,
      name: this.#room.asker(participant).name ?? "",
      time: this.#services.now(),
      judgement: { outcome: "entered" },
      help: before?.help ?? null,
      count: before?.count ?? 0,
      answer: checked.answer,
    };
    const isToWait = this.#room.trying().judging === "whenHandedIn";
    const kept = isToWait ? made : this.#judgedTry(made, judgement, checked);
    this.#ledger.record(participant, kept, () => this.#reply(peer, id, toldJudgement(kept)));
  }

  async #handIn(peer: Peer, id: number, { wanted }: HandIn): Promise<void> {
    if (!this.#takesOf(this.#services.helpRates, peer)) {
      this.#refuse(peer, id, "helpTooFast");
      return;
    }
    if (this.#entered(wanted).length + this.#steps.entered === 0) {
      this.#refuse(peer, id, "nothingEntered");
      return;
    }
    const why = await this.judgeEntered(peer.participant, wanted);
    this.#reply(peer, id, why === null ? { outcome: "done" } : { outcome: "refused", why });
  }

  /**
   * Has all judged that is entered for a wanted quantity, or for each with null, and before it the lines that are.
   * Resolves, once it is told, to why the first was not that could not be judged; such stay entered.
   */
  async judgeEntered(by: string, wanted: string | null): Promise<TryRefusal | null> {
    let why = await this.#steps.judgeEntered(by);
    for (const entered of this.#entered(wanted)) {
      const checked = await this.#check(entered);
      const refusal = this.#isDestroyed ? "busy" : this.#room.asker(by).refusal;
      if (refusal !== null) return refusal;
      // Meanwhile it may have been entered anew, or handed in by somebody else.
      const now = this.#ledger.at(entered);
      if (now?.judgement.outcome !== "entered" || now.time !== entered.time) continue;
      if (checked.outcome === "refused") why ??= checked.why;
      else if (checked.judgement.outcome !== "unread") {
        const judged = this.#judgedTry(now, checked.judgement, checked);
        await new Promise<void>((resolve) => this.#ledger.record(now.participant, judged, resolve));
      }
    }
    return why;
  }

  /** What waits to be judged: addends before groups, and the total behind all that it is the sum of. */
  #entered(wanted: string | null): readonly KeptTry[] {
    const all = this.#ledger.kept.filter(
      (each) => each.judgement.outcome === "entered" && (wanted === null || each.wanted === wanted),
    );
    const rank = ({ card }: KeptTry) => (card === TOTAL_CARD ? Number.POSITIVE_INFINITY : card.split("+").length);
    return all.sort((a, b) => rank(a) - rank(b));
  }

  #help(peer: Peer, id: number, action: HelpAction): void {
    const { participant } = peer;
    if (!this.#takesOf(this.#services.helpRates, peer)) {
      this.#refuse(peer, id, "helpTooFast");
      return;
    }
    const kept = this.#ledger.at(action);
    const name = this.#room.asker(participant).name ?? "";
    const decision = decideHelp(kept, kept !== undefined && this.#ledger.isOutdated(kept), action, {
      participant,
      name,
    });
    if (decision.outcome === "refused") {
      this.#refuse(peer, id, decision.why);
      return;
    }
    const { events } = decision;
    const done = () => this.#reply(peer, id, { outcome: "done" });
    events.forEach((event, i) => {
      this.#ledger.record(participant, event, i === events.length - 1 ? done : () => {});
    });
    if (events.length === 0) done();
  }

  /** A try that is entered, after it was judged. */
  #judgedTry(entered: KeptTry, judgement: Judged, { answer, explanations, follows }: Check): KeptTry {
    const from = this.#earlier(entered.wanted, entered.card).filter(({ card }) => follows.includes(tidyCard(card)));
    // Values that were tried while this one was judged are not those that it follows from.
    const isFollowing = follows.length > 0 && from.length === follows.length;
    const help = helpAfter(entered.help, judgement.outcome === "right", isFollowing ? null : helpWith(explanations));
    const kept: KeptTry["judgement"] = isFollowing
      ? { outcome: "follows", from: from.map(({ card, time }) => ({ card, time })) }
      : judgement;
    return { ...entered, judgement: kept, help, count: entered.count + 1, answer };
  }

  #reply(peer: Peer, id: number, reply: TryReply): void {
    if (peer.wantsAnswers) peer.send(writeTries({ about: "request", id, reply }));
  }

  #refuse(peer: Peer, id: number, why: TryRefusal): void {
    this.#reply(peer, id, { outcome: "refused", why });
  }

  /** Takes one of the participant's rate, where one is left. */
  #takesOf(rates: RateLimits, { participant }: Peer): boolean {
    return rates.take(participant, this.#services.now());
  }
}

/** Figures beyond which doubles tell nothing. */
const ALL_FIGURES = 12;

function rulesOf({ figures, units }: Trying): JudgingRules {
  return { figures: figures === "all" ? ALL_FIGURES : figures, units };
}
