import type { HelpReason, LineTry, ToldLine, TryHelp, ZeroingTry } from "../../../shared/messages";
import type { Listener } from "../toldTry";
import type { KeptLine, KeptStep, KeptZeroing, StepHelp } from "./keptStep";

/** A zeroing as it may be sent: no rung but those that were asked for. */
export function toldZeroing(kept: KeptZeroing, isOutdated: boolean, to: Listener): ZeroingTry {
  const { answer: _, step: __, judgement, help, ...rest } = kept;
  return { ...rest, outcome: judgement.outcome, help: toldHelp(kept, isOutdated, help, to), isOutdated };
}

/** A line as it may be sent. */
export function toldLine(kept: KeptLine, isOutdated: boolean, to: Listener): LineTry {
  const { answer: _, step: __, judgement: ___, help, ...rest } = kept;
  return { ...rest, told: toldOf(kept), help: toldHelp(kept, isOutdated, help, to), isOutdated };
}

/** What is told of a line itself: where one term is at fault, to say which would be the fix. */
export function toldOf({ judgement, help }: Pick<KeptLine, "judgement" | "help">): ToldLine {
  return judgement.outcome === "false" && help !== null ? { outcome: "false", diagnosis: null } : judgement;
}

function toldHelp({ judgement }: KeptStep, isOutdated: boolean, help: StepHelp | null, to: Listener): TryHelp | null {
  if (help === null) return null;
  const isWrong = judgement.outcome === "wrong" || judgement.outcome === "false";
  return {
    rungs: help.rungs.slice(0, help.given).map(({ text, parts, nodes }) => ({ text, parts, nodes })),
    hasMore: isWrong && !isOutdated && help.given < help.rungs.length,
    question: null,
    reason: toldReason(help, to),
  };
}

function toldReason({ rungs, given, reason }: StepHelp, to: Listener): HelpReason {
  if (reason === null) return { state: given >= rungs.length ? "asked" : "notAsked" };
  return { state: "given", name: reason.name, text: to === "instructor" ? reason.text : null };
}
